/**
 * What a pass sounded like: tempo, evenness and loudness, hand against hand and stroke against stroke. Pure.
 *
 * Groups are compared within what is alike but for the one thing that is asked (two hands by strokes of one name), and a
 * difference counts only when it is large enough to be heard and more than chance makes of so many strokes.
 *
 * @typedef {import("./heard-fit.js").Asked &
 *   {limb: string, name: string|null, key: string, place: string, isSecond: boolean}} AskedStroke
 *   `name` of a hand's stroke, `key` where it is written, `place` on what, `isSecond` of two strokes of one hand in a row;
 *   a `limb` of `both hands` is two strokes at once
 * @typedef {{by: number, error: number}} Difference in milliseconds or decibels, and its standard error
 * @typedef {{kind: string, side?: string, by: number, key?: string, weight: number}} Fault `weight`: how many times over its limit
 * @typedef {object} Judgement
 * @property {number} asked strokes that were asked for, without the bounces of a buzz
 * @property {number} missed
 * @property {number} extra
 * @property {number} drift the tempo against the one asked for: 0.02 is two in a hundred faster
 * @property {number} spread milliseconds around a steady tempo, as a standard deviation
 * @property {number|null} accents decibels from taps up to accents; null without both
 * @property {number|null} even decibels around their middle in which the taps lie, as a standard deviation; null without taps
 * @property {Difference|null} louder decibels by which the right hand is louder than the left
 * @property {Difference|null} later milliseconds by which the right hand is later than the left
 * @property {Fault[]} faults the heaviest first
 * @property {boolean} isClean
 * @property {{of: number, late: number, loud: number}[]} marks of each stroke that was paired: its place in what was
 *   asked, milliseconds late, decibels over what is meant
 */

import { median, meantLevel } from "./heard-fit.js";

// From which a difference is worth a word: what a listener notices, and a teacher would.
export const LIMITS = {
  drift: 0.015,
  spreadMs: 25,
  accentsDb: 5,
  evenDb: 3,
  handDb: 2,
  handMs: 10,
  upDb: 2.5,
  secondDb: 2.5,
  secondMs: 12,
  placeMs: 18,
  graceDb: 5,
  missedShare: 0.06,
};
// And what counts as clean; one stroke in fifty may escape a microphone.
export const CLEAN = { drift: 0.01, spreadMs: 22, accentsDb: 6, missedShare: 0.02, extraShare: 0.04 };
// So many standard errors are no chance.
const CERTAIN = 3.8;
const FEWEST = 6;
const FEWEST_OF_A_PLACE = 4;

/**
 * @param {AskedStroke[]} asked
 * @param {import("./heard-fit.js").Heard[]} heard
 * @param {import("./heard-fit.js").Fit} fit
 * @returns {Judgement|null} null where too few strokes were paired
 */
export function judge(asked, heard, { pairs, missed, extra }) {
  const counted = asked.filter(({ isOptional }) => !isOptional).length;
  const paired = pairs.filter(([at]) => !asked[at].isOptional).length;
  if (paired < Math.max(FEWEST, counted / 2)) return null;
  const strokes = measured(asked, heard, pairs);
  const mains = strokes.filter(({ kind, isOptional }) => kind === "main" && !isOptional);
  const byHand = mains.filter(isHand);
  const away = missed.map((at) => asked[at]).filter(({ isOptional }) => !isOptional);
  const found = {
    asked: counted,
    missed: away.length,
    extra: extra.length,
    drift: -strokes.slope,
    spread: spreadOf(mains.map(({ late }) => late)),
    accents: accentStep(mains),
    even: evenness(mains),
    louder: contrast(byHand, isRight, alike, loudness),
    later: contrast(byHand, isRight, alike, lateness),
  };
  const faults = faultsOf(found, strokes, mains, away).sort((one, other) => other.weight - one.weight);
  const marks = strokes.map(({ of, late, loud }) => ({ of, late, loud }));
  return { ...found, faults, isClean: isClean(found, mains), marks };
}

/** Each stroke that was paired with how late and how loud it was, against a steady tempo and the level of the whole. */
function measured(asked, heard, pairs) {
  const raw = pairs.map(([of, at]) => ({ ...asked[of], of, late: heard[at].time - asked[of].time, loud: heard[at].level - meantLevel(asked[of]) }));
  const steady = line(raw.map(({ time }) => time), raw.map(({ late }) => late));
  const zero = median(raw.map(({ loud }) => loud));
  const strokes = raw.map((stroke) => ({
    ...stroke,
    late: (stroke.late - steady.at(stroke.time)) * 1000,
    loud: stroke.loud - zero,
  }));
  return Object.assign(strokes, { slope: steady.slope });
}

/** A straight line through points, those far off it weighed less. */
function line(xs, ys) {
  const middle = average(xs);
  let [height, slope] = [median(ys), 0];
  for (let round = 0; round < 6; round += 1) {
    const off = ys.map((y, at) => y - height - slope * (xs[at] - middle));
    const spread = Math.max(1e-6, spreadOf(off));
    const weights = off.map((value) => 1 / (1 + (value / (2 * spread)) ** 2));
    const whole = weights.reduce((sum, weight) => sum + weight, 0);
    const [x, y] = [xs, ys].map((values) => values.reduce((sum, value, at) => sum + weights[at] * value, 0) / whole);
    let [across, up] = [0, 0];
    xs.forEach((value, at) => {
      across += weights[at] * (value - x) ** 2;
      up += weights[at] * (value - x) * (ys[at] - y);
    });
    slope = across ? up / across : 0;
    height = y + slope * (middle - x);
  }
  return { at: (x) => height + slope * (x - middle), slope };
}

const average = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** A standard deviation that a few outliers do not move. */
const spreadOf = (values) => {
  const middle = median(values);
  return 1.48 * median(values.map((value) => Math.abs(value - middle)));
};

/** A standard deviation in which all count: half of them may be off, which a middle would not show. */
const scatter = (off) => Math.sqrt(average(off.map((value) => value * value)));

function grouped(values, keyOf) {
  const groups = new Map();
  for (const value of values) groups.set(keyOf(value), [...(groups.get(keyOf(value)) ?? []), value]);
  return groups;
}

const isRight = ({ limb }) => limb === "right hand";
const isHand = ({ limb }) => limb === "right hand" || limb === "left hand";
// Drums sound and answer differently: a hand is compared with the other one on the same drum.
const alike = ({ level, name, isSecond, place }) => `${level} ${name} ${isSecond} ${place}`;
const loudness = ({ loud }) => loud;
const lateness = ({ late }) => late;

function accentStep(mains) {
  const of = (wanted) => mains.filter(({ level }) => level === wanted).map((stroke) => stroke.loud + meantLevel(stroke));
  const [accents, taps] = [of("accent"), of("tap")];
  return accents.length > 1 && taps.length > 1 ? median(accents) - median(taps) : null;
}

/** How alike the taps are, each hand and kind of stroke by itself: that these differ is another thing. */
function evenness(mains) {
  const taps = mains.filter(({ level }) => level === "tap");
  const groups = [...grouped(taps, ({ limb, name, isSecond, place }) => `${limb} ${name} ${isSecond} ${place}`).values()];
  const off = groups.filter((group) => group.length > 2).flatMap((group) => {
    const middle = median(group.map(loudness));
    return group.map(({ loud }) => loud - middle);
  });
  return off.length < FEWEST ? null : scatter(off);
}

/** By how much those of a group differ from the others, within each cell that has both; null where none has. */
function contrast(strokes, isIn, cellOf, measure) {
  const cells = grouped(strokes, cellOf);
  let [sum, whole] = [0, 0];
  const rest = [];
  for (const cell of cells.values()) {
    const [inside, outside] = [cell.filter(isIn), cell.filter((stroke) => !isIn(stroke))].map((group) => group.map(measure));
    if (inside.length < 2 || outside.length < 2) continue;
    const weight = (inside.length * outside.length) / (inside.length + outside.length);
    // Means: a middle jumps where strokes are now loud, now soft.
    const [mine, others] = [average(inside), average(outside)];
    sum += weight * (mine - others);
    whole += weight;
    rest.push(...inside.map((value) => value - mine), ...outside.map((value) => value - others));
  }
  return whole < 2 ? null : { by: sum / whole, error: Math.max(0.5, scatter(rest)) / Math.sqrt(whole) };
}

function faultsOf(found, strokes, mains, away) {
  const faults = [];
  const add = (kind, by, limit, more = {}) => faults.push({ kind, by, weight: Math.abs(by) / limit, ...more });
  const differs = (difference, limit) => difference && Math.abs(difference.by) > Math.max(limit, CERTAIN * difference.error);

  const missedShare = found.missed / found.asked;
  if (missedShare > LIMITS.missedShare && found.missed > 1) add("missed", missedShare, LIMITS.missedShare, sideOf(away));
  if (Math.abs(found.drift) > LIMITS.drift) add("drift", found.drift, LIMITS.drift);
  if (found.accents !== null && found.accents < LIMITS.accentsDb) {
    faults.push({ kind: "accents", by: found.accents, weight: 1 + (LIMITS.accentsDb - found.accents) / 3 });
  }
  if (found.spread > LIMITS.spreadMs) add("spread", found.spread, LIMITS.spreadMs);
  if (found.even !== null && found.even > LIMITS.evenDb) add("uneven taps", found.even, LIMITS.evenDb);
  if (differs(found.louder, LIMITS.handDb)) add("loud hand", found.louder.by, LIMITS.handDb, louderSide(found.louder.by));
  if (differs(found.later, LIMITS.handMs)) add("late hand", found.later.by, LIMITS.handMs, louderSide(found.later.by));

  const soft = mains.filter(isHand).filter(({ level }) => level === "tap");
  const ups = contrast(soft, ({ name }) => name === "up", ({ limb, place }) => `${limb} ${place}`, loudness);
  if (differs(ups, LIMITS.upDb) && ups.by > 0) add("loud ups", ups.by, LIMITS.upDb);
  const [softer, later] = [loudness, lateness].map((value) => contrast(mains.filter(isHand), ({ isSecond }) => isSecond, ({ limb, level, name, place }) => `${limb} ${level} ${name} ${place}`, value));
  if (differs(softer, LIMITS.secondDb) && softer.by < 0) add("soft seconds", softer.by, LIMITS.secondDb);
  if (differs(later, LIMITS.secondMs)) add("seconds in time", later.by, LIMITS.secondMs);
  const graces = strokes.filter(({ kind }) => kind === "grace");
  if (graces.length > 1) {
    const over = median(graces.map(loudness));
    if (over > LIMITS.graceDb) add("loud graces", over, LIMITS.graceDb);
  }
  return faults.length > 0 ? faults : placeFault(mains);
}

/** One place of the pattern that is always early or late, where nothing else explains it. */
function placeFault(mains) {
  const spread = Math.max(2, spreadOf(mains.map(lateness)));
  const places = [...grouped(mains, ({ key }) => key).values()].filter((group) => group.length >= FEWEST_OF_A_PLACE);
  const found = places.map((group) => {
    const by = median(group.map(lateness));
    const limit = Math.max(LIMITS.placeMs, (1.25 * (CERTAIN + 1) * spread) / Math.sqrt(group.length));
    return { kind: "place", by, key: group[0].key, weight: Math.abs(by) / limit };
  });
  return found.filter(({ weight }) => weight > 1);
}

const louderSide = (by) => ({ side: by > 0 ? "right" : "left" });

/** The hand that most of these strokes belong to, if it is one. */
function sideOf(strokes) {
  const right = strokes.filter(isRight).length / strokes.length;
  if (right >= 0.8) return { side: "right" };
  return right <= 0.2 ? { side: "left" } : {};
}

function isClean({ asked, missed, extra, drift, spread, accents }, mains) {
  const hasAccents = mains.some(({ level }) => level === "accent") && mains.some(({ level }) => level === "tap");
  return (
    missed / asked <= CLEAN.missedShare &&
    extra / asked <= CLEAN.extraShare &&
    Math.abs(drift) <= CLEAN.drift &&
    spread <= CLEAN.spreadMs &&
    (!hasAccents || (accents !== null && accents >= CLEAN.accentsDb))
  );
}
