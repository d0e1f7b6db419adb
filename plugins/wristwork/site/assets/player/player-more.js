/**
 * What a player has behind "More", one below the other. Each section is made for a player, has an `element`, and shows
 * how the player stands when it is told to; one without anything to offer has no element.
 */

import { say } from "../base/words.js";
import { diagramSwitches } from "./diagram.js";
import { freshId, make, showLevel } from "../base/elements.js";
import { Click } from "./player-click.js";
import { heldKey } from "./player-parts.js";
import { Bars } from "./player-part.js";
import { settings } from "./player-settings.js";
import { Climb, Sounding } from "./player-setup.js";

// A larger step than the keys beside the number take.
const STRIDE = 4;

/** Larger pictures of the exercise, each fetched when it is first wanted. */
const WAYS = [
  { words: say("On the music stand"), open: async (player) => (await import("./stand.js")).openStand(player) },
  { words: say("Watch the hands"), open: async (player) => (await import("./watch.js")).openWatch(player) },
  { words: say("Listen to me"), open: async (player) => (await import("./listen.js")).openListening(player) },
];

class Ways {
  constructor(player) {
    const keys = WAYS.map(({ words, open }) =>
      make("button", { type: "button", class: "ww-way-key", click: () => open(player) }, words),
    );
    this.element = make("div", { class: "ww-keys" }, ...keys);
  }

  show() {}
}

/** The tempo in large steps, at its start, at its goal, and as a slider. */
class Tempo {
  #player;
  #start = make("button", { type: "button", click: () => this.#player.setTempo(this.#player.meant.start) });
  #goal = make("button", { type: "button", click: () => this.#player.setTempo(this.#player.meant.goal) });
  #slider = make("input", { type: "range", "aria-label": say("Tempo") });
  #slide = make("div", { class: "ww-slide" }, this.#slider);

  constructor(player) {
    this.#player = player;
    this.#slider.addEventListener("input", () => player.setTempo(this.#slider.valueAsNumber));
    const keys = make("div", { class: "ww-keys" }, this.#key(say("Slower by {step}", { step: STRIDE }), -STRIDE), this.#key(say("Faster by {step}", { step: STRIDE }), STRIDE), this.#start, this.#goal);
    this.element = make("div", {}, keys, this.#slide);
  }

  #key(label, by) {
    const sign = by < 0 ? "−" : "+";
    const change = () => this.#player.setTempo(this.#player.tempo + by);
    return heldKey({ "aria-label": label }, change, `${sign}${STRIDE}`);
  }

  show() {
    const { tempo, limits, meant } = this.#player;
    const { start, goal } = meant;
    this.#start.textContent = start === goal ? say("Meant for {start}", { start }) : say("Start {start}", { start });
    this.#goal.textContent = say("Goal {goal}", { goal });
    this.#goal.hidden = start === goal;
    [this.#slider.min, this.#slider.max] = [limits.low, limits.high];
    this.#slider.value = tempo;
    this.#slider.setAttribute("aria-valuetext", say("{tempo} beats a minute", { tempo }));
    const share = (value) => (value - limits.low) / (limits.high - limits.low);
    this.#slide.style.setProperty("--ww-start", share(start));
    this.#slide.style.setProperty("--ww-goal", share(goal));
  }
}

class Volume {
  #level = make("input", { type: "range", id: freshId("volume"), min: 0, max: 100, step: 5 });

  constructor(player) {
    this.#level.addEventListener("input", () => player.set("volume", this.#level.valueAsNumber));
    const hearing = player.figure.closest("[data-ww-hearing]")?.dataset.wwHearing;
    const why = hearing ? [make("a", { href: hearing }, say("Look after your hearing"))] : [];
    const level = make("div", { class: "ww-level" }, make("label", { for: this.#level.id }, say("Volume")), this.#level);
    this.element = make(
      "div",
      { class: "ww-volume" },
      level,
      make("p", {}, `${say("Keep it as low as works.")} `, ...why),
      make("p", {}, say("No sound? A phone’s silent switch can mute this page, too.")),
    );
  }

  show() {
    showLevel(this.#level, settings.volume);
  }
}

/** Rows of the diagrams, and which hand leads; the diagrams look after these themselves. */
class Rows {
  constructor(player) {
    this.element = diagramSwitches(player.figure.querySelector(".ww-diagram"));
  }

  show() {}
}

/** The sounds that a page has without scripts. */
class Previews {
  constructor(_player, audio) {
    this.element = audio && make("details", { class: "ww-disclosure" }, make("summary", {}, say("Previews")), audio);
  }

  show() {}
}

const SECTIONS = [Ways, Tempo, Bars, Click, Sounding, Climb, Volume, Rows, Previews];

export class More {
  #sections;

  /**
   * @param {import("./player-figure.js").Player} player
   * @param {Element|null} previews
   */
  constructor(player, previews) {
    this.#sections = SECTIONS.map((Section) => new Section(player, previews)).filter(({ element }) => element);
    this.elements = this.#sections.map(({ element }) => element);
  }

  show() {
    for (const section of this.#sections) section.show();
  }
}
