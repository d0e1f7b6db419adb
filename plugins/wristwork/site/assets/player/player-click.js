/** The click: whether it sounds, where, how loud, and whether a bar of it comes before the first note. */

import { say } from "../base/words.js";
import { checkBox, make, showLevel } from "../base/elements.js";
import { areSame, clicksCode, readClicks } from "./player-clicks.js";
import { settings } from "./player-settings.js";

// What is offered, as the parts of a link's code.
const BEATS = { all: say("On every beat"), "2.4": say("On 2 and 4"), 1: say("On 1 alone"), off: say("Between the beats") };
const PARTS = { "": say("Nothing between"), 2: say("2 to a beat"), s2: say("2 to a beat, swung"), 3: say("3 to a beat"), 4: say("4 to a beat") };
const BARS = { "": say("All the time"), "1on1off": say("1 bar on, 1 off"), "2on2off": say("2 bars on, 2 off"), "4on4off": say("4 bars on, 4 off") };

export class Click {
  #player;
  #click;
  #countIn;
  #level = make("input", { type: "range", min: 0, max: 100, step: 5, "aria-label": say("Loudness of the click") });
  #choices = [BEATS, PARTS, BARS].map((choices, index) => this.#choice(choices, [say("On which beats"), say("Between the beats"), say("In which bars")][index]));
  #own = make("button", { type: "button", hidden: true, click: () => this.#player.set("clicks", this.#player.ownClicks) });

  constructor(player) {
    this.#player = player;
    this.#click = checkBox(say("Click"), (on) => player.set("click", on));
    this.#countIn = checkBox(say("Count-in, one bar"), (on) => player.set("countIn", on));
    this.#level.addEventListener("input", () => player.set("clickLevel", this.#level.valueAsNumber));
    const click = make("div", { class: "ww-click" }, this.#click.element, this.#level);
    const where = make("div", { class: "ww-clicks", role: "group", "aria-label": say("Where the click sounds") }, ...this.#choices, this.#own);
    this.element = make("div", { class: "ww-checks" }, click, where, this.#countIn.element);
  }

  #choice(choices, name) {
    const options = Object.entries(choices).map(([value, words]) => make("option", { value }, words));
    return make("select", { "aria-label": name, change: () => this.#choose() }, ...options);
  }

  #choose() {
    const code = this.#choices.map(({ value }) => value).filter(Boolean).join("-");
    this.#player.set("clicks", readClicks(code, this.#player.bar) ?? this.#player.clicks);
    this.#player.set("click", true);
  }

  show() {
    this.#click.box.checked = settings.click;
    this.#countIn.box.checked = settings.countIn;
    showLevel(this.#level, settings.clickLevel);
    this.#level.disabled = !settings.click && !settings.countIn;
    const { clicks, bar, ownClicks } = this.#player;
    const [beats, ...more] = clicksCode(clicks).split("-");
    const parts = more.find((each) => /^s?\d$/.test(each)) ?? "";
    const bars = more.find((each) => each.includes("on")) ?? "";
    for (const [index, value] of [beats, parts, bars].entries()) showChoice(this.#choices[index], value);
    this.#choices[0].querySelector("[value='2.4']").hidden = bar < 4;
    this.#own.hidden = areSame(clicks, ownClicks);
    this.#own.textContent = say("As the exercise has it");
  }
}

/** Shows a value; one that is not offered is added. */
function showChoice(select, value) {
  if (![...select.options].some((option) => option.value === value)) {
    const words = value
      .replace(/^(\d+)on(\d+)off$/, (_, on, off) => say("{on} on, {off} off", { on, off }))
      .replace(/^[\d.]+$/, (beats) => say("On {beats}", { beats: beats.replaceAll(".", ", ") }));
    select.append(make("option", { value }, words));
  }
  select.value = value;
}
