/** How it is played: click, count-in, loop, one hand only, left-handed, and the climb. */

import { isSwapped, setSwapped } from "./diagram.js";
import { freshId, make, numberField, showNumber } from "../base/elements.js";
import { settings } from "./player-settings.js";

const CLIMB = {
  from: "Climb from, beats a minute",
  by: "Climb by, beats a minute",
  every: "Climb after so many passes",
  top: "Climb up to, beats a minute",
};
const MOST_PASSES = 99;
const LONGEST_STEP = 100;

export class Setup {
  #player;
  #checks = {};
  #clickLevel;
  #hands;
  #numbers = {};
  #passes = make("span");

  constructor(player) {
    this.#player = player;
    this.elements = [
      make("div", { class: "ww-checks" }, ...this.#makeChecks()),
      this.#makeHands(),
      this.#makeClimb(),
      make("p", { class: "ww-hint" }, "No sound? A phone’s silent switch can mute this page, too."),
    ];
  }

  #makeChecks() {
    this.#clickLevel = make("input", { type: "range", min: 0, max: 100, step: 5, "aria-label": "Loudness of the click" });
    this.#clickLevel.addEventListener("input", () => this.#player.set("clickLevel", this.#clickLevel.valueAsNumber));
    return [
      make("div", { class: "ww-click" }, this.#check("click", "Click"), this.#clickLevel),
      this.#check("countIn", "Count-in, one bar"),
      this.#check("loop", "Loop"),
    ];
  }

  #check(name, words, set = (on) => this.#player.set(name, on)) {
    const box = make("input", { type: "checkbox", change: () => set(box.checked) });
    this.#checks[name] = box;
    return make("label", { class: "ww-check" }, box, words);
  }

  #makeHands() {
    const name = freshId("hands");
    this.#hands = ["both", "right hand", "left hand"].map((value) =>
      make("input", { type: "radio", name, value, change: () => this.#player.set("hands", value) }),
    );
    const words = ["Everything", "Right hand only", "Left hand only"];
    const radios = this.#hands.map((radio, index) => make("label", { class: "ww-check" }, radio, words[index]));
    return make(
      "fieldset",
      { class: "ww-checks" },
      make("legend", {}, "What sounds"),
      ...radios,
      this.#check("swap", "Left-handed: swap the hands", (on) => setSwapped("hands", on)),
    );
  }

  #makeClimb() {
    const number = (name, min, max) => {
      const set = (value) => this.#player.set("climb", { ...this.#player.climb, [name]: value });
      this.#numbers[name] = numberField(CLIMB[name], { min, max, set });
      return this.#numbers[name];
    };
    const { low, high } = this.#player.limits;
    return make(
      "p",
      { class: "ww-climb" },
      this.#check("climb", "Climb", (on) => this.#player.set("climb", { ...this.#player.climb, on })),
      make("span", {}, "from ", number("from", low, high), ", "),
      make("span", {}, number("by", 1, LONGEST_STEP), " more "),
      make("span", {}, "every ", number("every", 1, MOST_PASSES), this.#passes, ", "),
      make("span", {}, "up to ", number("top", low, high), "."),
    );
  }

  /** Shows how the player stands now. */
  show() {
    const { loop, hands, climb, limits } = this.#player;
    const on = { loop, climb: climb.on, swap: isSwapped("hands"), click: settings.click, countIn: settings.countIn };
    for (const [name, box] of Object.entries(this.#checks)) box.checked = on[name];
    this.#clickLevel.value = settings.clickLevel;
    this.#clickLevel.setAttribute("aria-valuetext", `${settings.clickLevel} percent`);
    this.#clickLevel.disabled = !settings.click && !settings.countIn;
    for (const radio of this.#hands) radio.checked = radio.value === hands;
    for (const name of ["from", "top"]) {
      [this.#numbers[name].min, this.#numbers[name].max] = [limits.low, limits.high];
    }
    for (const [name, field] of Object.entries(this.#numbers)) showNumber(field, climb[name]);
    this.#passes.textContent = climb.every === 1 ? " pass" : " passes";
  }
}
