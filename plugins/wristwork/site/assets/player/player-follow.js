/** While it plays, the page scrolls with the music, line by line; whoever scrolls by hand is left alone until it ends. */

import { Lines } from "./player-lines.js";

const ROOM = 12;
const SCROLLS = ["wheel", "touchmove"];

const stillness = matchMedia("(prefers-reduced-motion: reduce)");

export class Follower {
  #figure;
  #controls;
  #lines;
  #cell = null;
  #isLetGo = false;

  /** @param {HTMLElement} controls what stands over the figure at the foot of the screen */
  constructor(figure, controls) {
    this.#figure = figure;
    this.#controls = controls;
    this.#lines = new Lines(figure.querySelector(".ww-diagram"));
  }

  /** A playing begins. */
  begin() {
    this.#cell = null;
    this.#isLetGo = false;
    for (const name of SCROLLS) document.addEventListener(name, this.#letGo, { passive: true, once: true });
  }

  #letGo = () => {
    this.#isLetGo = true;
  };

  /** Brings the line of this part of the diagram into sight, where it is not. */
  follow(cell) {
    if (cell === this.#cell) return;
    this.#cell = cell;
    // On the music stand the diagram is not here, and the stand follows it.
    if (!cell || !this.#figure.contains(cell)) return;
    this.#lines.show(cell);
    // Who watches the hands looks at them.
    if (this.#isLetGo || this.#figure.querySelector(".ww-watch")) return;
    const head = document.querySelector(".md-header")?.getBoundingClientRect().bottom ?? 0;
    const foot = this.#controls.getBoundingClientRect().top;
    const { top, bottom, height } = cell.getBoundingClientRect();
    const isSeen = top >= head && bottom <= foot;
    const fills = height > foot - head && Math.abs(top - head) < height / 2;
    if (isSeen || fills) return;
    scrollBy({ top: top - head - ROOM, behavior: stillness.matches ? "auto" : "smooth" });
  }
}
