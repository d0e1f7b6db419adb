/** What was heard of an exercise when the player listened last: a few numbers, nothing of the sound. */

import { say } from "../base/words.js";
import { isTempo } from "../base/limits.js";
import { readDay } from "../base/dates.js";

const MOST = 999;
const isNumber = (value) => Number.isInteger(value) && Math.abs(value) <= MOST;
const isNumberOrNone = (value) => value === null || isNumber(value);

/**
 * @typedef {{day: string, tempo: number, spread: number, accents: number|null, louder: number|null}} Listened
 *   `spread` in milliseconds around a steady beat; decibels of accents over taps, and of the right hand over the left
 */

/** Such numbers out of any value, or null. @returns {Listened|null} */
export function readListened(value) {
  const { day, tempo, spread, accents, louder } = value ?? {};
  const isSound = readDay(day) !== null && isTempo(tempo) && isNumber(spread) && isNumberOrNone(accents) && isNumberOrNone(louder);
  return isSound ? { day, tempo, spread, accents, louder } : null;
}

/** As a line of a message says it. @param {Listened} listened */
export function listenedWords({ tempo, spread, accents, louder }) {
  const hand = !louder
    ? say("hands alike")
    : louder > 0
      ? say("right hand {count} dB louder", { count: louder })
      : say("left hand {count} dB louder", { count: -louder });
  const facts = [say("within {spread} ms", { spread }), accents === null ? "" : say("accents {accents} dB over taps", { accents }), louder === null ? "" : hand];
  return say("heard at {tempo}, {facts}", { tempo, facts: facts.filter(Boolean).join(", ") });
}
