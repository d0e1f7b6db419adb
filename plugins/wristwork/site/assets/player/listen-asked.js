/** The strokes that a player is asked for, as those can be heard: what sounds together is one. Pure. */

import { advance, startRun, timeAt } from "./player-schedule.js";

// Strokes so close together are one to an ear, and to a microphone.
const TOGETHER_S = 0.012;
// The second of two strokes of one hand that follow one another so soon is the rebound of a double.
const DOUBLE_S = 0.35;
const LOUDNESS = ["ghost", "tap", "accent"];

/**
 * All strokes of a number of passes, from 0 s on, and how many seconds the passes last.
 *
 * @param {any} score what is played, with the rules of ornaments and buzzes
 * @param {number} tempo beats a minute
 * @param {number} passes
 * @param {{swapHands: boolean, swapFeet: boolean}} sides
 * @returns {{strokes: import("../listening/judgement.js").AskedStroke[], seconds: number}}
 */
export function askedFor(score, tempo, passes, { swapHands, swapFeet }) {
  const run = startRun(score, 0, tempo, false);
  const end = passes * score.pass;
  const seconds = timeAt(run, end);
  const wish = { hands: "both", swapHands, swapFeet, click: false, clicks: null, loop: true, end, climb: null };
  const { sounds } = advance(score, run, wish, seconds + 1);
  return { strokes: withSeconds(heardAsOne(sounds.map(askedOf))), seconds };
}

/** How long one pass lasts, in seconds. */
export const passSeconds = (score, tempo) => timeAt(startRun(score, 0, tempo, false), score.pass);

/** A foot may play on a floor that no microphone hears, and the bounces of a buzz are no strokes of their own. */
function askedOf({ time, kind, level, limb, name, key, place }) {
  const isOptional = kind === "bounce" || limb.endsWith("foot");
  return { time, kind: kind === "grace" ? "grace" : "main", level, limb, name: name ?? null, key: key ?? "", place, isOptional };
}

function heardAsOne(strokes) {
  const heard = [];
  for (const stroke of strokes) {
    const before = heard.at(-1);
    if (!before || stroke.time - before.time >= TOGETHER_S) heard.push(stroke);
    else heard[heard.length - 1] = louder(before, stroke);
  }
  return heard;
}

/** Of two at once the one that is heard; where both hands play, neither can be told from the other. */
function louder(one, other) {
  const [first, second] = one.isOptional !== other.isOptional ? (one.isOptional ? [other, one] : [one, other]) : rank(one, other);
  return second.isOptional ? first : { ...first, limb: "both hands" };
}

const rank = (one, other) =>
  LOUDNESS.indexOf(other.level) > LOUDNESS.indexOf(one.level) ? [other, one] : [one, other];

function withSeconds(strokes) {
  const last = new Map();
  return strokes.map((stroke, at) => {
    const before = strokes[at - 1];
    const isOwn = before?.limb === stroke.limb && before.place === stroke.place && before.kind === "main";
    const isSecond = Boolean(isOwn && stroke.kind === "main" && stroke.time - before.time < DOUBLE_S && !last.get(before));
    last.set(stroke, isSecond);
    return { ...stroke, isSecond };
  });
}
