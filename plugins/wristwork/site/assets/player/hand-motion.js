/**
 * How a hand moves from stroke to stroke: bead, hand and wrist in centimetres over the head, as polynomials in time, and
 * the arm that carries them. Pure. The reasons of all rules and numbers are told in `technique/motion`, which works out the same.
 *
 * @typedef {{at: number, level: string, rebound?: boolean, buzz?: number}} Impact
 *   The bead meets the head `at` this second: of itself, if it is a `rebound`; pressed on for `buzz` seconds.
 * @typedef {{start: number, end: number, terms: number[]}} Segment
 * @typedef {{segments: Segment[], period: number|null}} Track
 * @typedef {{bead: Track, hand: Track, wrist: Track}} Motion
 */

const GRAVITY = 981;
export const HEIGHT_CM = { ghost: 2.5, tap: 6, accent: 25 };
const FALL = { ghost: GRAVITY, tap: 1.5 * GRAVITY, accent: 4 * GRAVITY };
const LIFT_S = 0.3;
const REBOUND_SHARE = 0.5;
const MOST_LIFT_SPEED = 2.5;
const BOUNCE_PULL = 1.5 * GRAVITY;
const BUZZ_SPACING_S = 0.012;
const BUZZ_SHARE = 0.6;
const AROUND_S = 1;
const LEADS = {
  wrist: { share: 0.12, lift: 1, ahead: 0, rebound: 1 },
  whip: { share: 0.75, lift: 0.6, ahead: 0.07, rebound: 0 },
};
export const LIMBS = { forearm: 28, hand: 9.73, stick: 26.4, elbowUp: 11, wristUp: 8, tilt: 0.24 };

const segment = (start, end, ...terms) => ({ start, end, terms });
const still = (start, end, value) => segment(start, end, value);
const fall = (start, end, height) => segment(start, end, height, 0, -height);
const drop = (start, end, height) => segment(start, end, height, 0, 0, -10 * height, 15 * height, -6 * height);
const bounce = (start, end, height) => segment(start, end, 0, 4 * height, -4 * height);

function lift(start, end, height, speed) {
  const way = speed * (end - start);
  return segment(start, end, 0, way, 0, 10 * height - 6 * way, -15 * height + 8 * way, 6 * height - 3 * way);
}

/** The value of a track at a time; before its first segment and after its last it stays what it is there. */
export function valueAt({ segments, period }, at) {
  const first = segments[0].start;
  const last = segments.at(-1).end;
  const time = period ? first + modulo(at - first, period) : Math.min(Math.max(at, first), last);
  const { start, end, terms } = segments.findLast((one) => one.start <= time) ?? segments[0];
  const share = (time - start) / (end - start);
  return terms.reduceRight((total, term) => total * share + term, 0);
}

const modulo = (value, by) => ((value % by) + by) % by;

/**
 * How one hand moves through its strokes, in time order; they come again after `period` seconds, if it is not null.
 *
 * @param {Impact[]} impacts one of them at least is no rebound
 * @param {number|null} period
 * @param {string} manner `wrist` or `whip`
 * @returns {Motion}
 */
export function motionOf(impacts, period = null, manner = "wrist") {
  const lead = LEADS[manner];
  const bead = [];
  const hand = [];
  const wrist = [];
  for (const [before, after, speed] of steps(impacts, period)) {
    const bounces = bouncesOf(before, after, speed);
    const start = bounces.at(-1)?.end ?? before.at;
    bead.push(...bounces);
    for (const track of [hand, wrist]) track.push(still(before.at, start, 0));
    if (start >= after.at) continue;
    const way = wayTo(start, after);
    const carried = carriedOn(way, bounces.length ? 0 : lead.rebound * liftSpeed(speed, way));
    bead.push(...carried);
    hand.push(...carried);
    wrist.push(...ledOn(way, lead));
  }
  if (period === null) {
    const [waiting, after] = [wayBefore(impacts[0]), wayAfter(impacts.at(-1))];
    for (const track of [bead, hand]) {
      track.unshift(...carriedOn(waiting, 0));
      track.push(...carriedOn(after, 0).slice(0, 2));
    }
    wrist.unshift(...ledOn(waiting, lead));
    wrist.push(...ledOn(after, lead).slice(0, 2));
  }
  const joined = (segments) => ({ segments: segments.filter(({ start, end }) => end > start), period });
  return { bead: joined(bead), hand: joined(hand), wrist: joined(wrist) };
}

/** Each stroke, the one after it, and the speed at which it met the head. */
function steps(impacts, period) {
  let ring;
  let scale;
  if (period === null) {
    ring = [{ ...impacts[0], rebound: false }, ...impacts.slice(1)];
    scale = scaleOf(AROUND_S, impacts[0].level);
  } else {
    const first = impacts.findIndex(({ rebound }) => !rebound);
    const earlier = impacts.map((impact) => ({ ...impact, at: impact.at - period }));
    ring = [...earlier.slice(first), ...impacts];
    scale = scaleBetween(impacts.at(first - 1), impacts[first], period);
  }
  const speeds = speedsOf(ring, scale);
  const pairs = ring.slice(1).map((after, index) => [ring[index], after, speeds[index]]);
  return period === null ? pairs : pairs.slice(-impacts.length);
}

function speedsOf(ring, first) {
  const speeds = [first * fullSpeed(ring[0].level)];
  for (let number = 1; number < ring.length; number += 1) {
    const [before, after] = [ring[number - 1], ring[number]];
    const thrown = () => scaleBetween(before, after, 0) * fullSpeed(after.level);
    speeds.push(after.rebound ? bounceSpeed(after, after.at - before.at, speeds.at(-1)) : thrown());
  }
  return speeds;
}

const fullSpeed = (level) => Math.sqrt(2 * FALL[level] * HEIGHT_CM[level]);
const liftTime = (level) => LIFT_S * Math.sqrt(HEIGHT_CM[level] / HEIGHT_CM.accent);
const fallTime = (level) => Math.sqrt((2 * HEIGHT_CM[level]) / FALL[level]);
const scaleOf = (gap, level) => Math.min(1, gap / (liftTime(level) + fallTime(level)));
const touches = ({ buzz = 0 }, gap) => Math.trunc(Math.min(buzz, BUZZ_SHARE * gap) / BUZZ_SPACING_S);

function scaleBetween(before, after, period) {
  const between = after.at - before.at;
  const gap = between > 0 ? between : between + period;
  return scaleOf(gap - touches(before, gap) * BUZZ_SPACING_S, after.level);
}

const bounceSpeed = ({ level }, gap, speed) =>
  Math.min(REBOUND_SHARE * speed, (BOUNCE_PULL * gap) / 2, (4 * HEIGHT_CM[level]) / gap);

/** From one stroke to the next: lifted until `lifted`, waiting until `falls`. */
function wayTo(start, { at: end, level }) {
  const scale = scaleOf(end - start, level);
  const lifted = start + scale * liftTime(level);
  const falls = Math.max(lifted, end - scale * fallTime(level));
  return { start, lifted, falls, end, height: scale * scale * HEIGHT_CM[level] };
}

const wayBefore = ({ at, level }) => ({
  start: at - AROUND_S,
  lifted: at - AROUND_S,
  falls: at - fallTime(level),
  end: at,
  height: HEIGHT_CM[level],
});

const wayAfter = ({ at }) => ({
  start: at,
  lifted: at + liftTime("tap"),
  falls: at + AROUND_S,
  end: at + AROUND_S,
  height: HEIGHT_CM.tap,
});

const liftSpeed = (speed, { start, lifted, height }) =>
  Math.min(REBOUND_SHARE * speed, (MOST_LIFT_SPEED * height) / (lifted - start));

const carriedOn = ({ start, lifted, falls, end, height }, speed) => [
  lift(start, lifted, height, speed),
  still(lifted, falls, height),
  fall(falls, end, height),
];

/** The wrist's part of a way. */
function ledOn(way, lead) {
  const height = lead.share * way.height;
  const lifted = way.start + lead.lift * (way.lifted - way.start);
  const drops = Math.max(lifted, way.falls - lead.ahead);
  return [lift(way.start, lifted, height, 0), still(lifted, drops, height), drop(drops, way.end, height)];
}

/** What the bead does by itself: the whole way to a rebound, or the touches of a buzz. */
function bouncesOf(before, after, speed) {
  const gap = after.at - before.at;
  if (after.rebound) return [bounce(before.at, after.at, (bounceSpeed(after, gap, speed) * gap) / 4)];
  const count = touches(before, gap);
  const height = (Math.min(REBOUND_SHARE * speed, BOUNCE_PULL * BUZZ_SPACING_S) * BUZZ_SPACING_S) / 4;
  const start = (number) => before.at + number * BUZZ_SPACING_S;
  return Array.from({ length: count }, (_, number) =>
    bounce(start(number), start(number + 1), height * (1 - number / (2 * count))),
  );
}

const ALONG = LIMBS.hand + LIMBS.stick * Math.cos(LIMBS.tilt);
const ACROSS = LIMBS.stick * Math.sin(LIMBS.tilt);
const REACH = Math.hypot(ALONG, ACROSS);
const TURN = Math.atan2(ACROSS, ALONG);

/** How the arm stands at a time: angles in radians above the horizontal, and where the segments end, in cm. */
export function poseAt(motion, at) {
  const bead = valueAt(motion.bead, at);
  const wristUp = LIMBS.wristUp + valueAt(motion.wrist, at);
  const forearm = Math.asin((wristUp - LIMBS.elbowUp) / LIMBS.forearm);
  const hand = Math.asin((valueAt(motion.hand, at) - wristUp) / REACH) - TURN;
  const wristX = LIMBS.forearm * Math.cos(forearm);
  const grip = [wristX + LIMBS.hand * Math.cos(hand), wristUp + LIMBS.hand * Math.sin(hand)];
  const stick = Math.asin((bead - grip[1]) / LIMBS.stick);
  return { forearm, hand, stick, wrist: [wristX, wristUp], grip, bead: [grip[0] + LIMBS.stick * Math.cos(stick), bead] };
}
