/** Today's practice: one step at a time, on paper all of them. All that comes from the address is put in as text. */

import { button } from "../base/copying.js";
import { readFigure } from "./course.js";
import { GentleTimer } from "./gentle-timer.js";
import { minutesWords, stepsOf } from "./list-steps.js";
import { mountLog } from "./log-marks.js";
import { make } from "../base/elements.js";
import { playerOf } from "../player/player-list.js";
import { mountPlayers } from "../player/players.js";
import { ROOT } from "../base/site.js";

export class Today {
  #course;
  #steps;
  #at = 0;
  #timer = null;
  #where = make("p", { class: "ww-today-where" });
  #step = make("section", { class: "ww-today-step" });
  #before = button("Back", () => this.#go(-1));
  #next = button("Next", () => this.#go(1), { class: "ww-today-next" });
  #sheet = make("ol", { class: "ww-today-sheet" });
  element;

  /** @param {(items: object[]) => void} change called when the reader wants to change the list */
  constructor(course, list, change) {
    this.#course = course;
    const known = list.items.filter(({ id }) => course.exercises.has(course.moved.get(id) ?? id));
    this.#steps = stepsOf(course, known);
    const told = trouble(list, list.items.length - known.length);
    const notice = told ? [make("p", { class: "ww-list-trouble", role: "alert" }, told)] : [];
    const edit = button("Change this list", () => change(list.items));
    if (known.length === 0) {
      this.element = make("div", {}, ...notice, make("p", {}, button("Put a list together", () => change([]))));
      return;
    }
    const nav = make("div", { class: "ww-today-ways" }, this.#before, this.#next);
    const parts = [this.#where, this.#step, nav, this.#makeOverview(), edit, this.#sheet];
    this.element = make("div", { class: "ww-today" }, ...notice, ...parts);
    window.addEventListener("beforeprint", () => this.#sheet.replaceChildren(...this.#steps.map((step) => this.#printed(step))));
    window.addEventListener("afterprint", () => this.#sheet.replaceChildren());
    this.element.addEventListener("ww-state", ({ detail }) => {
      if (detail.state === "playing") this.#timer?.start();
      if (detail.state === "stopped") this.#timer?.stop();
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
      make("summary", {}, `The whole practice, about ${minutesWords(minutes)}`),
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
    this.#step.scrollIntoView({ block: "start" });
  }

  #show() {
    const step = this.#steps[this.#at];
    this.#timer?.stop();
    for (const figure of this.#step.querySelectorAll(".ww-exercise")) playerOf(figure)?.stop();
    this.#where.textContent = `Step ${this.#at + 1} of ${this.#steps.length}`;
    this.#before.disabled = this.#at === 0;
    this.#next.hidden = this.#at === this.#steps.length - 1;
    this.#timer = new GentleTimer(step.seconds);
    const heading = make("h2", { tabindex: -1, dir: "auto" }, stepName(step));
    this.#step.replaceChildren(heading, ...this.#words(step), this.#timer.element);
    if (step.kind === "exercise") this.#putFigure(step, heading);
  }

  #words({ kind, item, exercise }) {
    if (kind === "break") return [make("p", {}, "Put the sticks down, stand up, walk a few steps, drink something.")];
    if (kind === "warm-up") return this.#routine(this.#course.warmUp, true);
    if (kind === "ease-off") return [...this.#routine(this.#course.easeOff, false), make("p", {}, "That was today’s practice. Well done.")];
    const range = item.from === item.to ? `At ${item.from}` : `From ${item.from} to ${item.to}`;
    const words = item.words.trim() === "" ? [] : [make("blockquote", { dir: "auto", class: "ww-word" }, item.words)];
    const what = `${range} beats a minute, ${amountWords({ item })}. ${exercise.from}.`;
    return [make("p", { class: "ww-today-what" }, what), ...words];
  }

  #routine(routine, isWarmUp) {
    const steps = routine.steps.map(({ name, do: words, seconds }) =>
      make("li", {}, make("strong", {}, name), ` (${minutesWords(seconds)}). ${words}`),
    );
    const page = this.#course.warmUpPage;
    const more = isWarmUp && page ? [make("p", {}, make("a", { href: new URL(page, ROOT) }, "The warm-up with its own timer"))] : [];
    return [make("ol", {}, ...steps), ...more, make("p", { class: "ww-stop" }, this.#course.stop)];
  }

  async #putFigure({ item, exercise }, heading) {
    const room = make("div", { class: "ww-today-figure" }, make("p", {}, "The exercise is on its way …"));
    this.#timer.element.before(room);
    try {
      const figure = await readFigure(exercise.id);
      if (!heading.isConnected) return; // the reader has gone on
      room.replaceChildren(figure);
      for (const player of mountPlayers(room)) player.setTempo(item.from);
      mountLog(room);
    } catch {
      const page = make("a", { href: new URL(`x/${exercise.id}/?tempo=${item.from}`, ROOT) }, "Try its own page");
      room.replaceChildren(make("p", { role: "alert" }, "The exercise can’t be reached, and it is not kept on this device. ", page));
    }
  }
}

function keepAtHand(id) {
  for (const name of ["", "exercise.json"]) fetch(new URL(`x/${id}/${name}`, ROOT)).catch(() => {});
}

function stepName({ kind, exercise }) {
  if (kind === "exercise") return exercise.title;
  return { "warm-up": "Warm-up", break: "A break", "ease-off": "Ease-off" }[kind];
}

/** @param {{item?: import("./list-draft.js").Item, seconds?: number}} step */
function amountWords({ item, seconds }) {
  if (item?.unit === "passes") return item.amount === 1 ? "1 pass" : `${item.amount} passes`;
  return item ? minutesWords(item.amount * 60) : minutesWords(seconds);
}

/** What a damaged, newer or old link has to say, or nothing. */
function trouble({ items, lost, isNewer, isList }, gone) {
  if (!isList) return "This link holds no practice list that can be read. Ask for it to be sent once more.";
  const parts = [];
  if (isNewer) parts.push("This link was made by a newer version of the site; reload this page when you have a signal.");
  if (lost > 0) {
    const read = items.length === 0 ? "none" : items.length === 1 ? "one" : items.length;
    parts.push(`The link was damaged on its way: of ${items.length + lost} exercises ${read} could be read. Ask for the link once more.`);
  }
  if (gone > 0) parts.push(gone === 1 ? "One exercise on it is not in this course." : `${gone} exercises on it are not in this course.`);
  return parts.join(" ");
}
