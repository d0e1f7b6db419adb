/** How it is played: over and over, one hand only, and climbing. */

import { say, sayAround, sayCount } from "../base/words.js";
import { checkBox, freshId, make, numberField, showNumber } from "../base/elements.js";

const CLIMB = {
  from: say("Climb from, beats a minute"),
  by: say("Climb by, beats a minute"),
  every: say("Climb after so many passes"),
  top: say("Climb up to, beats a minute"),
};
const MOST_PASSES = 99;
const LONGEST_STEP = 100;
const HANDS = { both: say("Everything"), "right hand": say("Right hand only"), "left hand": say("Left hand only") };

/** Which hand sounds, and whether it goes on over and over. */
export class Sounding {
  #player;
  #loop;
  #radios;

  constructor(player) {
    this.#player = player;
    this.#loop = checkBox(say("Loop"), (on) => player.set("loop", on));
    const name = freshId("hands");
    this.#radios = Object.keys(HANDS).map((value) =>
      make("input", { type: "radio", name, value, change: () => player.set("hands", value) }),
    );
    const choices = this.#radios.map((radio) => make("label", { class: "ww-check" }, radio, HANDS[radio.value]));
    const legend = make("legend", {}, say("What sounds"));
    this.element = make("fieldset", { class: "ww-checks" }, legend, ...choices, this.#loop.element);
  }

  show() {
    const { loop, hands } = this.#player;
    this.#loop.box.checked = loop;
    for (const radio of this.#radios) radio.checked = radio.value === hands;
  }
}

/** A tempo that rises by itself: one sentence with numbers to change. */
export class Climb {
  #player;
  #on;
  #numbers = {};
  #passes = make("span");

  constructor(player) {
    this.#player = player;
    this.#on = checkBox(say("Climb"), (on) => player.set("climb", { ...player.climb, on }));
    const { low, high } = player.limits;
    this.element = make(
      "p",
      { class: "ww-climb" },
      this.#on.element,
      make("span", {}, ...sayAround("from {tempo},", { tempo: this.#number("from", low, high) }), " "),
      make("span", {}, ...sayAround("{by} more", { by: this.#number("by", 1, LONGEST_STEP) }), " "),
      make("span", {}, ...sayAround("every {count} {passes},", { count: this.#number("every", 1, MOST_PASSES), passes: this.#passes }), " "),
      make("span", {}, ...sayAround("up to {tempo}.", { tempo: this.#number("top", low, high) })),
    );
  }

  #number(name, min, max) {
    const set = (value) => this.#player.set("climb", { ...this.#player.climb, [name]: value });
    this.#numbers[name] = numberField(CLIMB[name], { min, max, set });
    return this.#numbers[name];
  }

  show() {
    const { climb, limits } = this.#player;
    this.#on.box.checked = climb.on;
    for (const name of ["from", "top"]) {
      [this.#numbers[name].min, this.#numbers[name].max] = [limits.low, limits.high];
    }
    for (const [name, field] of Object.entries(this.#numbers)) showNumber(field, climb[name]);
    this.#passes.textContent = sayCount("pass", "passes", climb.every);
  }
}
