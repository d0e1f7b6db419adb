/** The warm-up timer: one step at a time, readable from across the room, with a quiet sound at each change. */

import { clockFace, say, sayCount } from "../base/words.js";
import { maySleep, stayAwake } from "../base/awake.js";
import { make } from "../base/elements.js";
import { chime } from "./warm-up-chime.js";
import { keep, recall } from "../base/store.js";
import { ROOT } from "../base/site.js";
import { StepClock } from "./warm-up-clock.js";
import { fitted } from "./warm-up-steps.js";

const SOUND_KEY = "ww.warm-up-sound";

/** Builds every timer of the page that is not built yet. */
export function mountWarmUps(root = document) {
  const week = Number(new URLSearchParams(location.search).get("week"));
  for (const place of root.querySelectorAll("[data-ww-warm-up]:not([data-ww-mounted])")) {
    place.dataset.wwMounted = "";
    const routines = JSON.parse(place.dataset.wwWarmUp);
    if (week > 0) mountFor(week, place, routines);
    else new WarmUp(place, routines);
  }
}

/** A timer with what has been taught before a week; where the course can't be asked, with everything. */
async function mountFor(week, place, routines) {
  const answer = await fetch(new URL("course.json", ROOT)).catch(() => null);
  const course = answer?.ok ? await answer.json() : { weeks: [] };
  const found = course.weeks.find(({ number }) => number === week);
  const known = found?.known ?? null;
  new WarmUp(place, routines.map((routine) => fitted(routine, known)));
  if (known) place.append(make("p", { class: "ww-warm-up-week" }, say("For week {week}: with what has been taught before it, and nothing else.", { week })));
}

const keepSound = (on) => keep(SOUND_KEY, on ? "on" : "off");

const sayLength = (seconds) => {
  const minutes = Math.floor(seconds / 60);
  if (minutes === 0) return say("half a minute");
  return seconds % 60 ? sayCount("{count} and a half minutes", "{count} and a half minutes", minutes) : sayCount("1 minute", "{count} minutes", minutes);
};

class WarmUp {
  constructor(place, routines) {
    this.sound = make("input", { type: "checkbox", checked: recall(SOUND_KEY) !== "off", change: () => keepSound(this.sound.checked) });
    const starts = routines.map((routine) =>
      make("button", { type: "button", click: () => this.#start(routine) }, say("{title}: {minutes} minutes", { title: routine.title, minutes: routine.minutes })),
    );
    const sound = make("label", { class: "ww-chime" }, this.sound, ` ${say("Quiet sound at each change")}`);
    this.dialog = this.#dialog();
    place.replaceChildren(make("div", { class: "ww-buttons" }, ...starts), sound, this.dialog);
  }

  #dialog() {
    const button = (words, act) => make("button", { type: "button", click: act }, words);
    this.where = make("p", { class: "ww-where" });
    this.name = make("h2", { class: "ww-timer-step" });
    this.face = make("p", { class: "ww-face", role: "timer" });
    this.letters = make("p", { class: "ww-letters", "aria-hidden": "true" });
    this.doing = make("p", { class: "ww-do" });
    this.feeling = make("p", { class: "ww-feel" });
    this.next = make("p", { class: "ww-next" });
    this.done = make("div", { class: "ww-progress", "aria-hidden": "true" });
    this.spoken = make("p", { class: "ww-spoken", "aria-live": "polite" });
    this.hold = button(say("Pause"), () => this.clock.toggle());
    this.back = button(say("Back"), () => this.clock.go(-1));
    this.skip = button(say("Skip"), () => this.clock.go(1));
    const controls = make("div", { class: "ww-buttons" }, this.hold, this.back, this.skip, button(say("Close"), () => this.dialog.close()));
    const reading = make("div", { class: "ww-reading" }, this.where, this.name, this.face, this.letters, this.doing, this.feeling, this.next);
    const dialog = make("dialog", { class: "ww-timer", "aria-label": say("Warm-up timer") }, reading, this.done, controls, this.spoken);
    dialog.addEventListener("close", () => this.#close());
    return dialog;
  }

  #start(routine) {
    this.routine = routine;
    this.clock = new StepClock(routine.steps.map((step) => step.seconds), {
      changed: (index) => this.#showStep(index),
      ticked: (left, share) => this.#showTime(left, share),
      held: (running) => this.#showHeld(running),
      ended: () => this.#showEnd(),
    });
    this.dialog.classList.remove("ww-ended");
    this.dialog.showModal();
    this.hold.focus();
    this.clock.start();
    stayAwake(this);
  }

  #showStep(index) {
    const { steps } = this.routine;
    const step = steps[index];
    this.where.textContent = say("Step {number} of {all}", { number: index + 1, all: steps.length });
    this.name.textContent = step.name;
    this.letters.textContent = step.letters;
    this.doing.textContent = step.do;
    this.feeling.textContent = step.feel;
    this.next.textContent = index + 1 < steps.length ? say("Next: {name}", { name: steps[index + 1].name }) : say("Last step");
    this.back.disabled = index === 0;
    this.skip.disabled = false;
    this.dialog.classList.remove("ww-ended");
    this.spoken.textContent = say("Step {number} of {all}: {name}, {time}. {words}", { number: index + 1, all: steps.length, name: step.name, time: sayLength(step.seconds), words: step.do });
    if (this.sound.checked) chime("change");
  }

  #showTime(left, share) {
    this.face.textContent = clockFace(left);
    this.done.style.setProperty("--ww-share", share.toFixed(4));
  }

  #showHeld(running) {
    this.hold.textContent = running ? say("Pause") : say("Go on");
    this.dialog.classList.toggle("ww-held", !running);
  }

  #showEnd() {
    this.dialog.classList.add("ww-ended");
    this.hold.textContent = say("Once more");
    this.skip.disabled = true;
    this.where.textContent = this.routine.title;
    this.name.textContent = say("Done");
    this.face.textContent = "0:00";
    for (const line of [this.letters, this.doing, this.feeling, this.next]) line.textContent = "";
    this.spoken.textContent = say("{title} done.", { title: this.routine.title });
    if (this.sound.checked) chime("end");
  }

  #close() {
    this.clock.stop();
    maySleep(this);
  }
}

mountWarmUps();
