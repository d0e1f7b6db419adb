/** Over each note of a diagram how it was played: to the left early, to the right late, above loud, below soft. */

import { draw } from "../base/elements.js";

// Pixels of the drawing for each millisecond and decibel; a dot stays near its note.
const PX_PER_MS = 0.2;
const PX_PER_DB = 1;
const FARTHEST = 9;
// Within these a stroke is good, and its dot is round; outside it has corners.
const GOOD_MS = 22;
const GOOD_DB = 4;

const limited = (value) => Math.max(-FARTHEST, Math.min(FARTHEST, value));

export class Dots {
  #diagram;
  #made = [];

  constructor(diagram) {
    this.#diagram = diagram;
  }

  /**
   * @param {{key: string, limb: string, late: number, loud: number}[]} strokes milliseconds late, decibels too loud
   * @param {{key: string, limb: string}[]} missed
   */
  show(strokes, missed) {
    this.clear();
    for (const stroke of strokes) this.#put(stroke, dotOf(stroke));
    for (const stroke of missed) this.#put(stroke, draw("path", { class: "ww-heard ww-missed", d: "M-4-4L4 4M-4 4L4-4" }));
  }

  #put({ key, limb }, dot) {
    const touch = this.#touchOf(key, limb);
    if (!touch) return;
    const [x, y] = ["cx", "cy"].map((name) => Number(touch.getAttribute(name)));
    dot.setAttribute("transform", `translate(${x} ${y})`);
    touch.after(dot);
    this.#made.push(dot);
  }

  /** Where the bead touches the head in the lane of a hand. */
  #touchOf(key, limb) {
    const all = [...this.#diagram.querySelectorAll(`circle[data-at="${key}"]`)];
    return all.find((circle) => circle.dataset.limb === limb) ?? (limb === "both hands" ? all[0] : null);
  }

  clear() {
    for (const dot of this.#made) dot.remove();
    this.#made = [];
  }
}

function dotOf({ late, loud }) {
  const [x, y] = [limited(late * PX_PER_MS), limited(-loud * PX_PER_DB)];
  const isGood = Math.abs(late) <= GOOD_MS && Math.abs(loud) <= GOOD_DB;
  return isGood
    ? draw("circle", { class: "ww-heard", cx: x.toFixed(1), cy: y.toFixed(1), r: 3 })
    : draw("path", { class: "ww-heard ww-off", d: `M${x.toFixed(1)} ${(y - 4).toFixed(1)}l4 4-4 4-4-4z` });
}
