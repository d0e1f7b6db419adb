const TITLES = { "right hand": say("Right hand"), "left hand": say("Left hand") };

/** One hand from the side: its arm, the head of the drum, the two heights, the bead's trail and the stroke's name. */

import { say } from "../base/words.js";
import { draw, make } from "../base/elements.js";
import { HEIGHT_CM, LIMBS, motionOf, poseAt } from "./hand-motion.js";
import { CREASES, FINGERS, FOREARM, PALM, STICK, STICK_AHEAD, THUMB } from "./hand-shapes.js";

// Pixels of the drawing, five to the centimetre; the elbow lies left of it.
const [WIDTH, HEIGHT, HEAD_Y, SCALE, ELBOW_X] = [288, 204, 184, 5, -74];
// The outline of the hand is turned against the line from wrist to grip.
const TURN = Math.atan2(8, 48);
// The trail of the bead: so many places over so many seconds.
const [TRAIL, TRAIL_S] = [20, 0.28];
// From when on a name is shown: a little before the bead falls.
const EARLY_S = 0.13;

export class HandPicture {
  element;
  #hits = [];
  #period = null;
  #motion = null;
  #once = null;
  #name = null;
  #moving;
  #trail = draw("polyline", { class: "ww-hand-trail" });
  #bead = draw("circle", { class: "ww-hand-bead", r: 5 });
  #word = make("span", { class: "ww-hand-word" });

  constructor(hand) {
    const arm = (kind) => part(kind, FOREARM, "forearm");
    const palm = (kind) => part(kind, PALM, "hand");
    const details = draw("g", {});
    details.append(part("", THUMB), part("ww-hand-line", FINGERS), part("ww-hand-line ww-hand-fine", CREASES));
    details.dataset.wwMoves = "hand";
    const parts = [
      part("ww-hand-edge", STICK, "stick"),
      part("ww-hand-wood", STICK, "stick"),
      arm("ww-hand-edge"),
      palm("ww-hand-edge"),
      arm("ww-hand-skin"),
      palm("ww-hand-skin"),
      part("ww-hand-edge", STICK_AHEAD, "stick"),
      part("ww-hand-wood", STICK_AHEAD, "stick"),
      details,
    ];
    this.#moving = parts;
    const svg = draw("svg", { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, "aria-hidden": "true" });
    svg.append(head(), ...heights(), this.#trail, ...parts, this.#bead);
    const title = make("figcaption", {}, make("strong", {}, TITLES[hand]), " ", this.#word);
    this.element = make("figure", { class: "ww-hand-picture", "data-ww-hand": hand }, title, svg);
  }

  /** What the hand plays in a round; `period` seconds later it comes again, if at all. */
  set(hits, period, manner) {
    this.#hits = hits;
    this.#period = period;
    this.#motion = hits.length ? motionOf(hits, period, manner) : null;
    this.#once = hits.length ? motionOf(hits, null, manner) : null;
  }

  /** Draws the moment `at`; in the first round the hand waits for its first stroke. */
  draw(at, isFirst) {
    if (!this.#motion || this.element.hidden) return;
    const motion = isFirst && at <= this.#hits[0].at ? this.#once : this.#motion;
    const pose = poseAt(motion, at);
    const turns = {
      forearm: `translate(${ELBOW_X} ${HEAD_Y - SCALE * LIMBS.elbowUp}) rotate(${degrees(pose.forearm)})`,
      hand: `translate(${x(pose.wrist)} ${y(pose.wrist)}) rotate(${degrees(pose.hand + TURN)})`,
      stick: `translate(${x(pose.grip)} ${y(pose.grip)}) rotate(${degrees(pose.stick)})`,
    };
    for (const part of this.#moving) part.setAttribute("transform", turns[part.dataset.wwMoves]);
    this.#bead.setAttribute("transform", `translate(${x(pose.bead)} ${y(pose.bead)})`);
    const past = Array.from({ length: TRAIL + 1 }, (_, number) => poseAt(motion, at - (number / TRAIL) * TRAIL_S).bead);
    this.#trail.setAttribute("points", past.map((place) => `${x(place)},${y(place)}`).join(" "));
    this.#showName(at);
  }

  /** The name of the stroke that falls, or fell last. */
  #showName(at) {
    const early = this.#period ? modulo(at + EARLY_S, this.#hits[0].at, this.#period) : at + EARLY_S;
    const hit = this.#hits.findLast((one) => one.at <= early) ?? this.#hits[0];
    const name = strokeWords(hit);
    if (name === this.#name) return;
    this.#name = name;
    this.#word.textContent = name;
  }
}

function strokeWords({ kind, name, rebound }) {
  if (kind === "grace") return say("{name} (grace note)", { name: say(name) });
  return rebound ? say("{name} (rebound)", { name: say(name) }) : say(name);
}

function part(kind, d, moves) {
  const path = draw("path", { class: `ww-hand-part ${kind}`, d });
  if (moves) path.dataset.wwMoves = moves;
  return path;
}

const head = () => draw("path", { class: "ww-hand-head", d: `M178 ${HEAD_Y}H${WIDTH - 2}V${HEAD_Y + 11}H178Z` });

function heights() {
  return [
    [say("high"), HEIGHT_CM.accent],
    [say("low"), HEIGHT_CM.tap],
  ].flatMap(([word, cm]) => {
    const up = HEAD_Y - SCALE * Number(cm);
    const text = draw("text", { class: "ww-hand-height-word", x: WIDTH - 2, y: up - 5, "text-anchor": "end" });
    text.textContent = word;
    return [draw("path", { class: "ww-hand-height", d: `M${WIDTH - 62} ${up}H${WIDTH - 2}` }), text];
  });
}

const x = (place) => (ELBOW_X + SCALE * place[0]).toFixed(1);
const y = (place) => (HEAD_Y - SCALE * place[1]).toFixed(1);
const degrees = (angle) => ((-angle * 180) / Math.PI).toFixed(2);
const modulo = (value, from, by) => from + ((((value - from) % by) + by) % by);
