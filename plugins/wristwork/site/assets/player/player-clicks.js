/**
 * Where the practice click sounds. Pure: it knows no audio and no page.
 *
 * @typedef {{beats: number[], offBeats: boolean, into: number, swung: boolean, on: number, off: number}} Clicks
 *   `beats` of a bar from 1 (none: all), or `offBeats`, halfway between; `into` how many parts of a beat, the parts softer
 *   and the second of two late where it is `swung`; for `on` bars it sounds and for `off` it is silent (0: always).
 */

/** @type {Clicks} */
export const EVERY_BEAT = { beats: [], offBeats: false, into: 1, swung: false, on: 0, off: 0 };

const MOST_BARS = 16;
const LATE = 2 / 3;
const SOFTER = 0.5;

/**
 * The clicks of the beat that begins at `beat`: how far into it, how loud, and whether it is the beat itself.
 *
 * @param {Clicks} clicks
 * @param {number} bar the number of the bar, from 0; less before the first
 * @param {number} inBar the beat of the bar, from 0
 * @returns {{at: number, gain: number, isBeat: boolean}[]}
 */
export function clicksIn(clicks, bar, inBar) {
  const cycle = clicks.on + clicks.off;
  if (clicks.off > 0 && ((bar % cycle) + cycle) % cycle >= clicks.on) return [];
  const half = clicks.swung ? LATE : 1 / 2;
  const isOn = clicks.beats.length === 0 || clicks.beats.includes(inBar + 1);
  const main = clicks.offBeats ? [{ at: half, gain: 1, isBeat: false }] : isOn ? [{ at: 0, gain: 1, isBeat: true }] : [];
  const parts = Array.from({ length: clicks.into - 1 }, (_, index) => ({
    at: clicks.swung ? LATE : (index + 1) / clicks.into,
    gain: SOFTER,
    isBeat: false,
  }));
  return [...main, ...parts.filter(({ at }) => !main.some((one) => one.at === at))];
}

/** The clicks as a link carries them: `2.4`, `off`, `all-3`, `1-s2-2on2off`. */
export function clicksCode({ beats, offBeats, into, swung, on, off }) {
  const where = offBeats ? "off" : beats.length > 0 ? beats.join(".") : "all";
  return [where, ...(into > 1 ? [`${swung ? "s" : ""}${into}`] : []), ...(off > 0 ? [`${on}on${off}off`] : [])].join("-");
}

/**
 * The clicks that a link carries; null where it is none.
 *
 * @param {string|null} code
 * @param {number} bar beats of a bar
 * @returns {Clicks|null}
 */
export function readClicks(code, bar) {
  const found = /^(all|off|\d{1,2}(?:\.\d{1,2})*)(?:-(s?)([2-6]))?(?:-(\d{1,2})on(\d{1,2})off)?$/.exec(code ?? "");
  if (!found) return null;
  const [, where, swung, into, on, off] = found;
  const beats = /^\d/.test(where) ? where.split(".").map(Number) : [];
  const bars = [on, off].map((count) => Number(count ?? 0));
  if (beats.some((beat) => beat < 1 || beat > bar) || bars.some((count) => count > MOST_BARS)) return null;
  return { beats, offBeats: where === "off", into: Number(into ?? 1), swung: swung === "s", on: bars[0], off: bars[1] };
}

/** Are two practice clicks the same? */
export const areSame = (one, other) => clicksCode(one) === clicksCode(other);
