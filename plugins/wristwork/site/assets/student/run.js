/** A practice, one step at a time, on paper all of them. All that comes from the address is put in as text. */

import { say, sayAround, sayCount } from "../base/words.js";
import { button } from "../base/copying.js";
import { readFigure } from "./course.js";
import { GentleTimer } from "./gentle-timer.js";
import { exactWords, minutesWords } from "./list-steps.js";
import { mountLog } from "./log-marks.js";
import { bestTempo, readLog } from "./log-store.js";
import { today } from "../base/dates.js";
import { fitted } from "../safety/warm-up-steps.js";
import { make } from "../base/elements.js";
import { playerOf } from "../player/player-list.js";
import { mountPlayers } from "../player/players.js";
import { ROOT } from "../base/site.js";

export class Run {
  #course;
  #steps;
  #at = 0;
  #timer = null;
  #played = new Map();
  #ended;
  #where = make("p", { class: "ww-today-where" });
  #step = make("section", { class: "ww-today-step" });
  #before = button(say("Back"), () => this.#go(-1));
  #next = button(say("Next"), () => this.#go(1), { class: "ww-today-next" });
  #sheet = make("ol", { class: "ww-today-sheet" });
  element;

  /**
   * `around` stands below the steps, `ended` below the sum at the end; it is asked for when the practice is over.
   *
   * @param {import("./list-steps.js").Step[]} steps
   */
  constructor(course, steps, { around = [], ended = () => [] } = {}) {
    this.#course = course;
    this.#steps = steps;
    this.#ended = ended;
    const nav = make("div", { class: "ww-today-ways" }, this.#where, this.#before, this.#next);
    this.element = make("div", { class: "ww-today" }, nav, this.#step, this.#makeOverview(), ...around, this.#sheet);
    window.addEventListener("beforeprint", () => this.#sheet.replaceChildren(...this.#steps.map((step) => this.#printed(step))));
    window.addEventListener("afterprint", () => this.#sheet.replaceChildren());
    this.element.addEventListener("ww-state", ({ detail }) => {
      if (detail.state === "playing") this.#timer?.start();
      if (detail.state === "stopped") this.#timer?.stop();
    });
    this.element.addEventListener("ww-played", ({ detail }) => {
      if (detail.id) this.#played.set(detail.id, (this.#played.get(detail.id) ?? 0) + detail.seconds);
    });
    // What is played later is fetched now, while there may be a signal.
    for (const { exercise } of this.#steps) {
      if (exercise) keepAtHand(exercise.id);
    }
    this.#show();
  }

  #makeOverview() {
    const minutes = this.#steps.reduce((sum, { seconds }) => sum + seconds, 0);
    const rows = this.#steps.map((step) => make("li", {}, `${stepName(step)}, ${amountWords(step)}`));
    return make(
      "details",
      { class: "ww-disclosure ww-today-all" },
      make("summary", {}, say("The whole practice, about {time}", { time: minutesWords(minutes) })),
      make("ol", {}, ...rows),
      make("p", {}, this.#course.stop),
    );
  }

  #printed(step) {
    const name = make("strong", {}, make("bdi", {}, stepName(step)));
    const amount = step.kind === "exercise" ? [] : [`, ${amountWords(step)}`];
    return make("li", {}, make("p", {}, name, ...amount), ...this.#words(step));
  }

  #go(by) {
    this.#at += by;
    this.#show();
    this.#step.querySelector("h2").focus();
    this.element.scrollIntoView({ block: "start" });
  }

  #show() {
    const step = this.#steps[this.#at];
    this.#timer?.stop();
    for (const figure of this.#step.querySelectorAll(".ww-exercise")) playerOf(figure)?.stop();
    this.#before.disabled = this.#at === 0;
    this.#next.hidden = step === undefined;
    this.#next.textContent = this.#at === this.#steps.length - 1 ? say("Finish") : say("Next");
    if (step === undefined) {
      this.#showEnd();
      return;
    }
    const left = this.#steps.slice(this.#at).reduce((sum, { seconds }) => sum + seconds, 0);
    this.#where.textContent = say("Step {number} of {all}, {time} left", { number: this.#at + 1, all: this.#steps.length, time: minutesWords(left) });
    this.#timer = new GentleTimer(step.seconds);
    const heading = make("h2", { tabindex: -1, dir: "auto" }, stepName(step));
    this.#step.replaceChildren(heading, ...this.#words(step), this.#timer.element);
    if (step.kind === "exercise") this.#putFigure(step, heading);
  }

  /** What was done, and where to go on. */
  #showEnd() {
    this.#where.textContent = say("Done");
    const lines = this.#steps.filter(({ kind }) => kind === "exercise").map(({ exercise }) => {
      const seconds = this.#played.get(exercise.id) ?? 0;
      const { clean: tempos, done } = readLog();
      const clean = tempos.get(exercise.id)?.get(today());
      const played = seconds >= 30 ? minutesWords(seconds) : seconds > 0 ? say("less than a minute") : "";
      const isDone = done.get(exercise.id) === today();
      const facts = [played, clean ? say("clean at {clean}", { clean }) : "", isDone ? say("done") : ""].filter(Boolean);
      if (facts.length === 0) facts.push(say("not played here"));
      return make("li", {}, ...sayAround("{head}: {rest}", { head: make("bdi", {}, exercise.title), rest: facts.join(", ") }));
    });
    this.#step.replaceChildren(
      make("h2", { tabindex: -1 }, say("That was today’s practice. Well done.")),
      make("ul", {}, ...lines),
      ...this.#ended(),
    );
  }

  #words({ kind, item, exercise, seconds, words: instead }) {
    if (kind === "own-choice") return [make("p", {}, say("Play what you like best."))];
    if (kind === "break") return [make("p", {}, say("Put the sticks down, stand up, walk a few steps, drink something."))];
    if (kind === "warm-up" && instead) {
      const stop = make("p", { class: "ww-session-stop" }, this.#course.stop);
      return [make("blockquote", { dir: "auto", class: "ww-word" }, instead), ...this.#warmUpPage(), stop];
    }
    if (kind === "warm-up") return this.#routine(this.#course.warmUp, seconds, true);
    if (kind === "ease-off") return this.#routine(this.#course.easeOff, seconds, false);
    const word = item.words.trim() === "" ? [] : [make("blockquote", { dir: "auto", class: "ww-word" }, item.words)];
    const told = { from: item.from, to: item.to, amount: amountWords({ item }), lesson: exercise.from };
    const what =
      item.from === item.to
        ? say("At {from} beats a minute, {amount}. {lesson}.", told)
        : say("From {from} to {to} beats a minute, {amount}. {lesson}.", told);
    const own = bestTempo(exercise.id);
    const best = own === null ? [] : [make("p", { class: "ww-today-own" }, say("Clean so far at {own}.", { own }))];
    return [make("p", { class: "ww-today-what" }, what), ...best, ...word];
  }

  /** What is known by then: before the last of the weeks that teach the exercises of this practice. */
  #known() {
    const ids = this.#steps.filter(({ exercise }) => exercise).map(({ exercise }) => exercise.id);
    const weeks = this.#course.weeks.filter((week) => ids.some((id) => week.teaches.includes(id)));
    return weeks.length > 0 ? weeks[weeks.length - 1].known : null;
  }

  /** As many steps of a routine as there is time for. */
  #routine(whole, time, isWarmUp) {
    const routine = fitted(whole, this.#known());
    const ends = routine.steps.map((_, index) => routine.steps.slice(0, index + 1).reduce((sum, { seconds }) => sum + seconds, 0));
    const inTime = routine.steps.filter((_, index) => index === 0 || ends[index] <= time);
    const steps = inTime.map(({ name, do: words, seconds }) =>
      make("li", {}, make("strong", {}, name), ` (${exactWords(seconds)}). ${words}`),
    );
    const more = isWarmUp ? this.#warmUpPage() : [];
    return [make("ol", {}, ...steps), ...more, make("p", { class: "ww-session-stop" }, this.#course.stop)];
  }

  #warmUpPage() {
    const page = this.#course.warmUpPage;
    return page ? [make("p", {}, make("a", { href: new URL(page, ROOT) }, say("The warm-up with its own timer")))] : [];
  }

  async #putFigure({ item, exercise }, heading) {
    const room = make("div", { class: "ww-today-figure" }, make("p", {}, say("The exercise is on its way …")));
    this.#timer.element.after(room);
    try {
      const figure = await readFigure(exercise.id);
      if (!heading.isConnected) return; // the reader has gone on
      room.replaceChildren(figure);
      for (const player of mountPlayers(room)) player.setTempo(item.from);
      mountLog(room);
    } catch {
      const page = make("a", { href: new URL(`x/${exercise.id}/?tempo=${item.from}`, ROOT) }, say("Try its own page"));
      room.replaceChildren(make("p", { role: "alert" }, `${say("The exercise can’t be reached, and it is not kept on this device.")} `, page));
    }
  }
}

function keepAtHand(id) {
  for (const name of ["", "exercise.json"]) fetch(new URL(`x/${id}/${name}`, ROOT)).catch(() => {});
}

function stepName({ kind, exercise }) {
  if (kind === "exercise") return exercise.title;
  return { "warm-up": say("Warm-up"), break: say("A break"), "ease-off": say("Ease-off"), "own-choice": say("Your own choice") }[kind];
}

/** @param {{item?: import("./list-draft.js").Item, seconds?: number}} step */
function amountWords({ item, seconds }) {
  if (item?.unit === "passes") return sayCount("1 pass", "{count} passes", item.amount);
  return item ? minutesWords(item.amount * 60) : minutesWords(seconds);
}

/** What a damaged, newer or old link has to say, or nothing. */
export function trouble({ items, lost, isNewer, isList }, gone) {
  if (!isList) return say("This link holds no practice list that can be read. Ask for it to be sent once more.");
  const parts = [];
  if (isNewer) parts.push(say("This link was made by a newer version of the site; reload this page when you have a signal."));
  if (lost > 0) {
    const read = [say("none"), say("one")][items.length] ?? items.length;
    parts.push(say("The link was damaged on its way: of {all} exercises {read} could be read. Ask for the link once more.", { all: items.length + lost, read }));
  }
  if (gone > 0) parts.push(sayCount("One exercise on it is not in this course.", "{count} exercises on it are not in this course.", gone));
  return parts.join(" ");
}
