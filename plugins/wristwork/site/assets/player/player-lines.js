/**
 * A long diagram on a phone: its first lines, and a key for the rest. While it plays, the lines move up in their window as
 * sheets do on the music stand. Whether all lines are shown is kept on this device, for all diagrams.
 */

import { say } from "../base/words.js";
import { make } from "../base/elements.js";
import { keep, recall } from "../base/store.js";

const KEY = "ww.lines";
const ALL = "all";
const SHOWN = 2;
const PHONE = matchMedia("(max-width: 30rem)");

export class Lines {
  #diagram;
  #key = make("button", { type: "button", class: "ww-all-lines", hidden: true, click: () => this.#turn() });

  /** @param {HTMLElement} diagram which stands in its figure */
  constructor(diagram) {
    this.#diagram = diagram;
    diagram.after(this.#key);
    new ResizeObserver(() => this.#fit()).observe(diagram.firstElementChild ?? diagram);
    PHONE.addEventListener("change", () => this.#fit());
  }

  #turn() {
    keep(KEY, recall(KEY) === ALL ? "" : ALL);
    this.#fit();
  }

  #fit() {
    const tops = this.#tops();
    const isLong = PHONE.matches && tops.length > SHOWN;
    const isShort = isLong && recall(KEY) !== ALL;
    this.#diagram.classList.toggle("ww-window", isShort);
    if (isShort) this.#diagram.style.setProperty("--ww-window", `${tops[SHOWN] - this.#top}px`);
    this.#key.hidden = !isLong;
    this.#key.textContent = isShort ? say("Show all {count} lines", { count: tops.length }) : say("Show {shown} lines of {count}", { shown: SHOWN, count: tops.length });
  }

  get #top() {
    return this.#diagram.firstElementChild.getBoundingClientRect().top;
  }

  /** Where each line of the diagram begins. */
  #tops() {
    const tops = [...this.#diagram.querySelectorAll(".ww-cell")].map((cell) => Math.round(cell.getBoundingClientRect().top));
    return [...new Set(tops)].sort((one, other) => one - other);
  }

  /** Moves a line to the top of the window, where there is one. */
  show(cell) {
    if (!this.#diagram.classList.contains("ww-window")) return;
    const first = this.#diagram.querySelector(".ww-cell").getBoundingClientRect().top;
    this.#diagram.scrollTop = cell.getBoundingClientRect().top - first;
  }
}
