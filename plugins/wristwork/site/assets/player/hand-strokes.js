/**
 * What each hand does in one round of an exercise, in seconds: the strokes of the schedule, made ready for the motion.
 * Pure; when a stroke sounds is decided by the schedule alone.
 *
 * @typedef {import("./hand-motion.js").Impact & {name: string, kind: string, limb: string, on: string}} Hit
 * @typedef {{hits: Hit[], hands: Record<string, Hit[]>, period: number|null, secondsAt: (beat: number) => number}} Round
 */

import { advance, startRun, timeAt } from "./player-schedule.js";

export const HANDS = ["left hand", "right hand"];

// Strokes this close together, against the shortest spacing of the pattern, are of one throw; at most so many are.
const CLOSE = 1.1;
const MOST_OF_A_THROW = 3;
// A double slower than this is two strokes of the wrist.
const SLOWEST_THROW_S = 0.25;
const TOGETHER_S = 0.001;

/**
 * @param {any} score what `readScore` gives, with the rules of the sounds
 * @param {number} tempo
 * @param {boolean} swapHands is the reader left-handed?
 * @param {boolean} loops does it come again?
 * @returns {Round}
 */
export function roundOf(score, tempo, swapHands, loops) {
  const run = startRun(score, 0, tempo, false);
  const end = score.written;
  const wish = { hands: "both", swapHands, swapFeet: false, click: false, end, climb: null };
  const { sounds } = advance(score, run, wish, timeAt(run, end) + 1);
  const hits = [];
  for (const sound of sounds) {
    if (!sound.limb?.endsWith("hand")) continue;
    if (sound.kind === "bounce") lengthen(hits, sound);
    else hits.push(hitOf(sound));
  }
  const period = timeAt(run, end);
  markRebounds(hits, loops ? period : null);
  const hands = Object.fromEntries(HANDS.map((hand) => [hand, hits.filter(({ limb }) => limb === hand)]));
  return { hits, hands, period: loops ? period : null, secondsAt: (beat) => timeAt(run, beat) };
}

/** Where nothing is accented a stroke may come from high all the same: its name says so. */
function hitOf({ time, level, name, kind, limb, place }) {
  const isHigh = name === "full" || name === "down";
  return { at: time, level: isHigh ? "accent" : level, name, kind, limb, on: place, buzz: 0, rebound: false };
}

/** A buzz lasts until its last bounce. */
function lengthen(hits, { limb, time }) {
  const buzz = hits.findLast((hit) => hit.limb === limb && hit.kind === "buzz");
  buzz.buzz = time - buzz.at;
}

/** Two or three strokes of one hand, with none of the other between and no accent after the first, are of one throw. */
function markRebounds(hits, period) {
  const start = period ? hits.findIndex((hit, index) => hit.limb !== hits.at(index - 1).limb) : 0;
  if (start < 0) return;
  const main = hits.filter(({ kind }) => kind !== "grace");
  const gaps = main.slice(1).map(({ at }, index) => at - main[index].at).filter((gap) => gap > TOGETHER_S);
  const close = Math.min(SLOWEST_THROW_S, CLOSE * Math.min(...gaps));
  let throwing = [];
  for (const hit of [...hits.slice(start), ...hits.slice(0, start)]) {
    const before = throwing.at(-1);
    const isSame = before?.limb === hit.limb && before.kind !== "buzz" && hit.level !== "accent";
    const between = before ? hit.at - before.at : 0;
    const gap = between < 0 ? between + period : between;
    const isOrnament = before?.kind === "grace" && hit.kind === "grace";
    if (isSame && gap > 0 && (gap <= close || isOrnament)) throwing.push(hit);
    else {
      markThrow(throwing);
      throwing = [hit];
    }
  }
  markThrow(throwing);
}

function markThrow(hits) {
  if (hits.length > MOST_OF_A_THROW) return;
  for (const hit of hits.slice(1)) hit.rebound = true;
}
