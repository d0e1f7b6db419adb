/**
 * The hands over the drums, from above, where a pattern travels: the beads on their ways from drum to drum, and a ring
 * where one touches. How high they are is shown from the side.
 */

import { say } from "../base/words.js";
import { draw } from "../base/elements.js";

const [WIDTH, HEIGHT, TOP] = [288, 226, 28];
// As on the page about posture: middle and radius for a right-handed player, who sits at the bottom.
const ROUNDS = {
  snare: [144, 172, 32],
  "high tom": [114, 106, 25],
  "mid tom": [172, 106, 26],
  "floor tom": [244, 186, 35],
  crash: [50, 68, 33],
  ride: [242, 86, 38],
  "hi-hat": [50, 158, 30],
};
// What is struck elsewhere on one of them or beside it.
const ALIKE = {
  pad: "snare",
  "rim shot": "snare",
  "cross-stick": "snare",
  "stick on stick": "snare",
  "brush sweep": "snare",
  "open hi-hat": "hi-hat",
  "half-open hi-hat": "hi-hat",
  "ride bell": "ride",
  "second crash": "crash",
  splash: "crash",
  china: "ride",
  cowbell: "mid tom",
  "low tom": "floor tom",
};
// Two hands at one drum stand beside each other.
const APART = 8;
const GRIPS = { "left hand": [112, 232], "right hand": [176, 232] };
const RING_S = 0.14;
const RING_MOST = 16;

const nameOf = (on) => (on in ROUNDS ? on : (ALIKE[on] ?? "snare"));

/** Whether the hands of a round go from drum to drum. @param {import("./hand-strokes.js").Round} round */
export const travels = ({ hits }) => new Set(hits.map(({ on }) => nameOf(on))).size > 1;

export class HandsAbove {
  element = draw("svg", { class: "ww-above", viewBox: `0 ${TOP} ${WIDTH} ${HEIGHT}`, "aria-hidden": "true" });
  #hands = {};
  #period = null;
  #marks = {};

  /**
   * @param {import("./hand-strokes.js").Round} round
   * @param {boolean} isMirrored is the kit a left-handed player's?
   */
  set({ hits, hands, period }, isMirrored) {
    const struck = new Set(hits.map(({ on }) => nameOf(on)));
    const across = (x) => (isMirrored ? WIDTH - x : x);
    this.#period = period;
    this.element.replaceChildren(...Object.entries(ROUNDS).flatMap(([name, [x, y, radius]]) => drum(name, across(x), y, radius, struck.has(name))));
    for (const [hand, own] of Object.entries(hands)) {
      const side = hand === "right hand" ? APART : -APART;
      this.#hands[hand] = own.map(({ at, on }) => {
        const [x, y] = ROUNDS[nameOf(on)];
        return { at, x: across(x) + side, y };
      });
      if (own.length) this.#marks[hand] = this.#makeMarks(hand);
      else delete this.#marks[hand];
    }
  }

  #makeMarks(hand) {
    const [x1, y1] = GRIPS[hand];
    const stick = draw("line", { class: "ww-above-stick", x1, y1 });
    const ring = draw("circle", { class: "ww-above-ring", r: 0 });
    const bead = draw("circle", { class: "ww-above-bead", r: 6 });
    this.element.append(stick, ring, bead);
    return { stick, ring, bead };
  }

  /** Draws the moment `at`. */
  draw(at) {
    for (const [hand, { stick, ring, bead }] of Object.entries(this.#marks)) {
      const { x, y, since } = placeAt(this.#hands[hand], this.#period, at);
      stick.setAttribute("x2", x.toFixed(1));
      stick.setAttribute("y2", y.toFixed(1));
      bead.setAttribute("transform", `translate(${x.toFixed(1)} ${y.toFixed(1)})`);
      ring.setAttribute("transform", `translate(${x.toFixed(1)} ${y.toFixed(1)})`);
      const share = since < RING_S ? since / RING_S : 1;
      ring.setAttribute("r", (share * RING_MOST).toFixed(1));
      ring.setAttribute("opacity", (1 - share).toFixed(2));
    }
  }
}

/**
 * Where a bead is over the drums, and how long ago it touched one. From touch to touch it goes with the least jerk, as a
 * lift does, and is over the next drum when it falls.
 *
 * @param {{at: number, x: number, y: number}[]} touches by time
 * @param {number|null} period
 */
export function placeAt(touches, period, at) {
  const first = touches[0].at;
  const time = period ? first + ((((at - first) % period) + period) % period) : at;
  const number = touches.findLastIndex((touch) => touch.at <= time);
  if (number < 0) return { ...touches[0], since: Infinity };
  const touch = touches[number];
  const next = touches[number + 1] ?? (period ? { ...touches[0], at: first + period } : null);
  const since = time - touch.at;
  if (!next || next.at <= touch.at) return { ...touch, since };
  const share = since / (next.at - touch.at);
  const gone = share ** 3 * (10 - 15 * share + 6 * share * share);
  return { x: touch.x + gone * (next.x - touch.x), y: touch.y + gone * (next.y - touch.y), since };
}

function drum(name, cx, cy, r, isStruck) {
  const circle = draw("circle", { class: isStruck ? "ww-above-drum ww-struck" : "ww-above-drum", cx, cy, r });
  if (!isStruck) return [circle];
  const words = draw("text", { class: "ww-above-name", x: cx, y: cy - r / 2 + 4, "text-anchor": "middle" });
  words.textContent = say(name);
  return [circle, words];
}
