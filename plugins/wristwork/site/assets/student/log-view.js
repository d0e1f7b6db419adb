/** The student's log on their own screen, and all they can do with it. */

import { say, sayAround, sayCount } from "../base/words.js";
import { button, canShare, Outcome } from "../base/copying.js";
import { Keeping } from "./keep-course.js";
import { dayWords, OWN_START, readDay, startOf, today, weekOf } from "../base/dates.js";
import { addPlayed, changeLog, deleteAll, joinLog, logText, readLog, sessionName, sound } from "./log-store.js";
import { dropLists } from "./list-draft.js";
import { listenedWords } from "./listened.js";
import { logTable } from "./log-table.js";
import { checkBox, make, numberField, showNumber } from "../base/elements.js";
import { find } from "./course.js";
import { encodeReport } from "./report-codec.js";
import { reportMessage, reportOf } from "./report.js";
import { sessionPlace } from "./session.js";
import { herePath, published, ROOT, whereItLeads } from "../base/site.js";
import { keepOwn, NOT_KEPT, recallOwn } from "../base/store.js";
import { lastWeek } from "./way-on.js";

// Stands in messages alone: no link and no saved file holds it.
const NAME = "name";
// In one go; a longer day can be entered in parts.
const MOST_MINUTES = 240;
const DELETE =
  say("Delete all that this course keeps of you on this device: your log, your name, the practice list you put together, your ticks and your own first day? A saved file stays what it is.");

export class LogPage {
  #course;
  #outcome = new Outcome();
  #fileOutcome = new Outcome();
  #sessions = make("div", {});
  #table = make("div", {});
  #listened = make("div", {});
  #weeks = make("select", { id: "ww-week" });
  #name = make("input", { id: "ww-name", maxlength: 60, dir: "auto", autocomplete: "off" });
  #heard = checkBox(say("With what was heard when the player listened"), () => {});
  #question = make("textarea", { id: "ww-question", rows: 3, maxlength: 600, dir: "auto" });
  element;

  constructor(course) {
    this.#course = course;
    for (const { number, title } of course.weeks) {
      this.#weeks.append(make("option", { value: number }, say("Week {number}, {title}", { number, title })));
    }
    this.#weeks.addEventListener("change", () => {
      this.#keepChange((log) => (log.week = Number(this.#weeks.value)));
      this.#show();
    });
    this.#name.value = recallOwn(NAME) ?? "";
    this.#name.addEventListener("change", () => this.#outcome.report(keepOwn(NAME, this.#name.value.trim()) ? "" : NOT_KEPT));
    this.#question.value = readLog().question;
    this.#question.addEventListener("change", () => this.#keepChange((log) => (log.question = this.#question.value)));
    this.element = make("div", {}, ...this.#makeWeek(), ...this.#makeTutor(), ...this.#makeDevice());
    this.#show();
  }

  #keepChange(change) {
    this.#outcome.report(changeLog(change) ? "" : NOT_KEPT);
  }

  get #week() {
    const said = readLog().week;
    const start = startOf(this.#course.starts);
    const now = start === null ? null : weekOf(start);
    const numbers = this.#course.weeks.map(({ number }) => number);
    return [said, lastWeek(this.#course), now].find((number) => numbers.includes(number)) ?? numbers[0] ?? 1;
  }

  #show() {
    this.#weeks.value = String(this.#week);
    this.#sessions.replaceChildren(...this.#sessionsOf(this.#course.weeks.find(({ number }) => number === this.#week)));
    this.#table.replaceChildren(logTable(this.#course, this.#report(), true));
    this.#showHeard();
  }

  /** Which sessions of a week are done, and the way to the next. */
  #sessionsOf(week) {
    if (!week?.sessions) return [];
    const { sessions } = readLog();
    const all = Array.from({ length: week.sessions }, (_, index) => index + 1);
    const done = all.filter((number) => sessions.has(sessionName(week.number, number)));
    const next = all.find((number) => !done.includes(number));
    const some = say("Done: session {done} of {all}.", { done: done.join(", "), all: all.length });
    const words = `${done.length === 0 ? say("No session of this week is done yet.") : some} `;
    const on = next && make("a", { href: new URL(sessionPlace({ week: week.number, session: next }), ROOT) }, say("Start session {next}", { next }));
    return [make("p", {}, words, ...(on ? [on] : []))];
  }

  #report() {
    return reportOf(this.#course, this.#week, { ...readLog(), question: this.#question.value });
  }

  #makeWeek() {
    const start = this.#course.starts ? [this.#makeStart()] : [];
    return [
      make("p", { class: "ww-field" }, make("label", { for: "ww-week" }, say("I am in")), this.#weeks),
      ...start,
      this.#sessions,
      this.#table,
      this.#listened,
      this.#makeMinutes(),
    ];
  }

  /** What was heard last of the week's exercises. */
  #showHeard() {
    const { heard } = readLog();
    const ids = this.#course.weeks.find(({ number }) => number === this.#week)?.ids ?? [];
    const lines = ids.filter((id) => heard.has(id)).map((id) => {
      const { day } = heard.get(id);
      const head = make("bdi", {}, find(this.#course, id)?.title ?? id);
      return make("li", {}, ...sayAround("{head}: {rest}", { head, rest: `${listenedWords(heard.get(id))} (${dayWords(day)})` }));
    });
    this.#listened.replaceChildren(...(lines.length > 0 ? [make("p", {}, say("When the player listened last:")), make("ul", {}, ...lines)] : []));
  }

  /** Minutes at the pad that no player has counted. */
  #makeMinutes() {
    const minutes = numberField(say("Minutes"), { min: 1, max: MOST_MINUTES, set: (typed) => showNumber(minutes, typed) });
    showNumber(minutes, 10);
    const what = make("select", { "aria-label": say("Of what") });
    const ids = this.#course.weeks.flatMap(({ ids: of }) => of);
    for (const id of new Set(ids)) what.append(make("option", { value: id }, find(this.#course, id)?.title ?? id));
    const add = button(say("Add"), () => {
      const count = Number(minutes.dataset.wwSet);
      this.#outcome.report(addPlayed(what.value, count * 60) ? sayCount("1 minute added to today.", "{count} minutes added to today.", count) : NOT_KEPT);
      this.#show();
    });
    const more = make("details", { class: "ww-disclosure" }, make("summary", {}, say("I practised without the player")));
    more.append(make("p", { class: "ww-field" }, minutes, say("minutes of"), what, add));
    return more;
  }

  /** Only where the course has dates. */
  #makeStart() {
    const field = make("input", { type: "date", id: "ww-start" });
    field.value = recallOwn(OWN_START) || this.#course.starts;
    field.addEventListener("change", () => {
      const isDay = readDay(field.value) !== null;
      const isOwn = isDay && field.value !== this.#course.starts;
      const isKept = keepOwn(OWN_START, isOwn ? field.value : "");
      if (!isDay) field.value = this.#course.starts;
      const isWeekKept = changeLog((log) => (log.week = null));
      this.#outcome.report(isKept && isWeekKept ? "" : NOT_KEPT);
      this.#show();
    });
    return make("p", { class: "ww-field" }, make("label", { for: "ww-start" }, say("My week 1 began on")), field);
  }

  #makeTutor() {
    const link = () => published(`${herePath()}#${encodeReport(this.#report())}`).href;
    const copyLink = () => this.#outcome.copy(link(), say("Link copied. The table is in the link itself.") + whereItLeads);
    const message = () => reportMessage(this.#course, this.#report(), { name: this.#name.value, withHeard: this.#heard.box.checked });
    const share = () => this.#outcome.share({ text: message() });
    return [
      make("h2", {}, say("Message to my tutor")),
      make("p", { class: "ww-field" }, make("label", { for: "ww-name" }, say("My name, if you like")), this.#name),
      make("p", { class: "ww-field ww-field-wide" }, make("label", { for: "ww-question" }, say("A question")), this.#question),
      ...(readLog().heard.size > 0 ? [make("p", {}, this.#heard.element)] : []),
      make(
        "div",
        { class: "ww-list-send" },
        button(say("Copy as a message"), () => this.#outcome.copy(message(), say("Message copied."))),
        ...(canShare() ? [button(say("Share …"), share)] : []),
        button(say("Copy a link that shows this table"), copyLink),
        this.#outcome.element,
      ),
    ];
  }

  #makeDevice() {
    return [
      make("h2", {}, say("Where my log lives")),
      make(
        "p",
        {},
        `${say("In this browser on this device, and nowhere else: nobody can see it unless you send it.")} ` +
          `${say("A chat’s own browser and a page on the home screen keep logs of their own, and some browsers erase what was not used for some weeks.")} ` +
          say("To move your log, or to be safe, save it as a file and open that file on the other device."),
      ),
      make(
        "div",
        { class: "ww-list-send" },
        button(say("Save as a file"), () => this.#save()),
        this.#makeOpen(),
        button(say("Keep it for good"), () => this.#persist()),
        button(say("Delete everything"), () => this.#delete()),
        this.#fileOutcome.element,
      ),
      ...new Keeping().elements,
    ];
  }

  #save() {
    const href = URL.createObjectURL(new Blob([logText()], { type: "application/json" }));
    make("a", { href, download: `my-practice-${today()}.json` }).click();
    setTimeout(() => URL.revokeObjectURL(href), 60_000);
    this.#fileOutcome.report(say("Saved as a file."));
  }

  #makeOpen() {
    const field = make("input", { type: "file", accept: ".json,application/json", hidden: true, "aria-label": say("A saved log") });
    field.addEventListener("change", async () => {
      const [file] = field.files;
      if (file) this.#open(await file.text());
      field.value = "";
    });
    return make("span", {}, button(say("Open a file"), () => field.click()), field);
  }

  #open(text) {
    let value = null;
    try {
      value = JSON.parse(text);
    } catch {
      // Said below.
    }
    if (typeof value?.wristwork !== "number") {
      this.#fileOutcome.report(say("That file is no saved log. Choose one that was saved here as my-practice-….json."));
      return;
    }
    const isKept = joinLog(sound(value));
    this.#question.value = readLog().question;
    this.#show();
    this.#fileOutcome.report(isKept ? say("The log in the file is now in this one.") : NOT_KEPT);
  }

  async #persist() {
    const isKept = await (navigator.storage?.persist?.() ?? Promise.resolve(false)).catch(() => false);
    this.#fileOutcome.report(
      isKept
        ? say("This browser keeps it until you delete it.")
        : say("This browser does not promise it. Put the course on the home screen, or save the log as a file now and then."),
    );
  }

  #delete() {
    if (!confirm(DELETE)) return;
    deleteAll();
    dropLists();
    this.#question.value = "";
    this.#name.value = "";
    this.#show();
    this.#fileOutcome.report(say("Everything is deleted. How you set the player and the diagrams stays."));
  }
}
