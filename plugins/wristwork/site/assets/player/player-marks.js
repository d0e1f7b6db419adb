/**
 * Marks in a diagram what is played: the notes, letters and touches of a stroke, a line that sweeps along, and on
 * it in each lane the bead of the stick. Where motion is not wanted the line steps from stroke to stroke.
 */

import { draw } from "../base/elements.js";

const SAMPLES_APART = 2;
const BEAD_RADIUS = 5;

const stillness = matchMedia("(prefers-reduced-motion: reduce)");

export class Marker {
  #diagram;
  #elements = null;
  #cuts;
  #shown = "";
  #marked = [];
  #cut = null;

  /** @param {HTMLElement} diagram which holds the small drawings of the beats */
  constructor(diagram) {
    this.#diagram = diagram;
  }

  /**
   * @param {{key: string, limb: string}[]} played those that are played; none to mark nothing
   * @param {number|null} place beats from the start of the pattern
   */
  mark(played, place) {
    if (place !== null) this.#read();
    const strokes = played.filter((stroke) => !this.#isOver(stroke, place));
    const shown = strokes.map(({ key, limb }) => `${key} ${limb}`).join();
    if (shown !== this.#shown) this.#markStrokes(strokes);
    this.#shown = shown;
    this.#point(place !== null && stillness.matches ? stepped(strokes, place) : place);
  }

  #read() {
    if (this.#elements) return;
    this.#elements = new Map();
    for (const element of this.#diagram.querySelectorAll("[data-at]")) {
      const { at } = element.dataset;
      this.#elements.set(at, [...(this.#elements.get(at) ?? []), element]);
    }
    this.#cuts = [...this.#diagram.querySelectorAll(".ww-beat")].map((svg) => new Cut(svg));
  }

  /** The part of the diagram that holds a place, in beats from the start of the pattern. */
  cellAt(place) {
    this.#read();
    return this.#cutAt(place)?.cell ?? null;
  }

  #cutAt(place) {
    return this.#cuts.find(({ from, to }) => from <= place && place < to);
  }

  /** Has the note of this stroke come to its end? Only the notes of feet say how long they last. */
  #isOver({ key, limb }, place) {
    const elements = (this.#elements?.get(key) ?? []).filter((element) => element.dataset.limb === limb);
    const lasts = elements.find((element) => element.dataset.lasts)?.dataset.lasts;
    if (!lasts || place === null) return false;
    const end = this.#cuts.at(-1).to;
    return (place - readFraction(key) + end) % end >= Number(lasts);
  }

  #markStrokes(strokes) {
    for (const element of this.#marked) element.classList.remove("ww-now");
    // Which limb an element says changes with the left-handed switch.
    this.#marked = strokes.flatMap(({ key, limb }) =>
      (this.#elements.get(key) ?? []).filter((element) => element.dataset.limb === limb),
    );
    for (const element of this.#marked) element.classList.add("ww-now");
  }

  #point(place) {
    const cut = place === null ? null : this.#cutAt(place);
    if (cut !== this.#cut) this.#cut?.hide();
    this.#cut = cut ?? null;
    cut?.point(place, !stillness.matches);
  }
}

/** The place of the latest stroke. */
function stepped(strokes, place) {
  const places = strokes.map(({ key }) => readFraction(key)).filter((at) => at <= place);
  return places.length ? Math.max(...places) : place;
}

function readFraction(text) {
  const [above, below] = text.split("/");
  return above / below;
}

/** One of a diagram's small drawings, with the line that is at times in it. */
class Cut {
  from;
  to;
  #svg;
  #start;
  #pace;
  #width;
  #line;
  #beads = null;

  constructor(svg) {
    const { from, to, wwStart, wwPace } = svg.dataset;
    [this.from, this.to] = [readFraction(from), readFraction(to)];
    [this.#start, this.#pace] = [Number(wwStart), Number(wwPace)];
    this.#width = svg.width.baseVal.value;
    this.#svg = svg;
    this.#line = draw("line", { class: "ww-cursor", y2: "100%" });
  }

  get cell() {
    return this.#svg.closest(".ww-cell");
  }

  point(place, withBeads) {
    // The end of a beat lies under the start of the next one, or where a line ends beyond the page.
    const x = Math.min(this.#width, this.#start + this.#pace * (place - this.from));
    if (!this.#line.isConnected) this.#svg.append(this.#line);
    this.#line.setAttribute("transform", `translate(${x.toFixed(1)})`);
    if (!withBeads) return;
    this.#beads ??= [...this.#svg.querySelectorAll("path.ww-bead")].map((path) => new Bead(path));
    for (const bead of this.#beads) bead.put(x);
  }

  hide() {
    this.#line.remove();
    for (const bead of this.#beads ?? []) bead.remove();
  }
}

/** The bead of one hand's stick, on its way along the line of its lane. */
class Bead {
  #path;
  #points;
  #dot = draw("circle", { class: "ww-stick", r: BEAD_RADIUS });

  constructor(path) {
    this.#path = path;
    const length = path.getTotalLength();
    const count = Math.ceil(length / SAMPLES_APART);
    this.#points = Array.from({ length: count + 1 }, (_, index) => path.getPointAtLength((index / count) * length));
  }

  put(x) {
    const after = this.#points.findIndex((point) => point.x >= x);
    const { y } = this.#points.at(after);
    if (!this.#dot.isConnected) this.#path.after(this.#dot);
    this.#dot.setAttribute("transform", `translate(${x.toFixed(1)} ${y.toFixed(1)})`);
  }

  remove() {
    this.#dot.remove();
  }
}
