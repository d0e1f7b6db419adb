/** The click: whether it sounds, how loud, and whether a bar of it comes before the first note. */

import { checkBox, make, showLevel } from "../base/elements.js";
import { settings } from "./player-settings.js";

export class Click {
  #click;
  #countIn;
  #level = make("input", { type: "range", min: 0, max: 100, step: 5, "aria-label": "Loudness of the click" });

  constructor(player) {
    this.#click = checkBox("Click", (on) => player.set("click", on));
    this.#countIn = checkBox("Count-in, one bar", (on) => player.set("countIn", on));
    this.#level.addEventListener("input", () => player.set("clickLevel", this.#level.valueAsNumber));
    const click = make("div", { class: "ww-click" }, this.#click.element, this.#level);
    this.element = make("div", { class: "ww-checks" }, click, this.#countIn.element);
  }

  show() {
    this.#click.box.checked = settings.click;
    this.#countIn.box.checked = settings.countIn;
    showLevel(this.#level, settings.clickLevel);
    this.#level.disabled = !settings.click && !settings.countIn;
  }
}
