/**
 * The moments at which an exercise sounds. Pure: it knows no clock, no audio and no page.
 *
 * Places in time are beats from the first beat of the first pass (a count-in is below 0), or seconds on
 * whatever clock the run was started with. Live playing and the tests both call `advance`, and nothing
 * else decides when a stroke sounds.
 *
 * @typedef {{beat: number, time: number, tempo: number, climbed?: boolean}} Anchor
 *   From this beat, which sounds at `time` seconds, the tempo is `tempo` beats a minute. `climbed`: a climb set it.
 * @typedef {{from: [number, number], share: [number, number]}} WrittenPace
 * @typedef {{spans: {start: number, share: number, elapsed: number}[], beats: number}} Pace
 *   From `start` on, of a pass of so many beats, the tempo is `share` of the one it is played at; `elapsed` beats of
 *   that one have gone by until there.
 * @typedef {{anchors: Anchor[], next: number, climbsFrom: number, pace: Pace}} Run
 *   A playing: all that lies before the beat `next` is given out. A climb counts its passes from `climbsFrom`.
 * @typedef {{every: number, by: number, top: number}} Climb
 *   `by` beats a minute more after each `every` passes, up to `top`.
 * @typedef {{hands: string, swapHands: boolean, swapFeet: boolean, click: boolean, end: number, climb: Climb|null,
 *   clicks?: import("./player-clicks.js").Clicks}} Wish
 *   How it is to be played. `hands` is `both`, or the one limb that sounds. `end` is the beat to end at, or Infinity.
 * @typedef {{time: number, beat: number, place: string, level: string, gain: number, turn: number,
 *   handTurn: number, kind: string, limb?: string, name?: string, key?: string}} Sound
 *   One sound. `beat` is where it is written. `turn` counts the sounds of its place and level, `handTurn` those of
 *   them that one limb plays. Kind `bounce` and
 *   `click` apart, a kind is the stroke's; `limb` plays it here, by the `name` of a hand's stroke, and `key` is where it is
 *   written ("a/b").
 */

import { clicksIn, EVERY_BEAT } from "./player-clicks.js";

const OTHER = {
  "right hand": "left hand",
  "left hand": "right hand",
  "right foot": "left foot",
  "left foot": "right foot",
};

/**
 * What `exercise.json` says, made ready for playing.
 *
 * `bar`: beats of a bar; `pickup`: those before the first bar line; `written`: beats after which the strokes come
 * again; `pass`: beats of one pass; `passages`: from beat to beat, what of the drawing is played one after the other;
 * `voices`: what is struck and how loud; `turns`: how many strokes each of these has. For playing it also needs
 * `buzz` and `drag`, from the list of the sounds; a `stretch` plays ornaments and swing of a tempo so many times as fast,
 * that many times slower.
 */
export function readScore(exercise) {
  const [upper, lower] = exercise.time;
  const isCompound = !exercise.pulses && lower >= 8 && upper > 3 && upper % 3 === 0;
  const pass = exercise.beats * exercise.repeat;
  const written = exercise.loop ? exercise.beats : pass;
  const turns = {};
  const fills = (exercise.buzzes ?? []).map(number);
  const strokes = exercise.strokes.map((stroke, index) => readStroke(exercise.strokes, stroke, index, turns, fills));
  const voices = [...new Map(strokes.map(({ voice, on, level }) => [voice, [on, level]])).values()];
  const bar = isCompound ? upper / 3 : upper;
  const { pickup = 0, passages = [[0, exercise.beats]] } = exercise;
  const [swing, pace] = [readSwing(exercise, written), readPace(exercise)];
  const accented = readPulses(exercise.pulses ?? []);
  return { bar, accented, pickup, written, pass, passages, strokes, voices, turns, swing, pace };
}

/** The beats of a bar on which the click is high: the first one, and where a bar has groups the first of each. */
function readPulses(pulses) {
  return new Set([0, ...pulses.map((_, index) => pulses.slice(0, index + 1).reduce((sum, size) => sum + size))]);
}

/** @param {{beats: number, paces?: WrittenPace[]}} exercise */
function readPace({ beats, paces = [{ from: [0, 1], share: [1, 1] }] }) {
  const spans = [];
  for (const { from, share } of paces) {
    const before = spans.at(-1);
    const start = number(from);
    const elapsed = before ? before.elapsed + (start - before.start) / before.share : 0;
    spans.push({ start, share: number(share), elapsed });
  }
  return { spans, beats };
}

/** How many beats of the tempo that it is played at have gone by at a beat. */
function elapsed({ spans, beats }, beat) {
  if (beat < 0) return beat / spans[0].share;
  const rounds = Math.floor(beat / beats);
  const rest = beat - rounds * beats;
  return rounds * wholeOf({ spans, beats }) + elapsedIn(spans.findLast(({ start }) => start <= rest), rest);
}

const elapsedIn = (span, beat) => span.elapsed + (beat - span.start) / span.share;
const wholeOf = ({ spans, beats }) => elapsedIn(spans.at(-1), beats);

/** At which beat so many beats of the tempo have gone by: `elapsed`, the other way round. */
function beatAfter({ spans, beats }, gone) {
  if (gone < 0) return gone * spans[0].share;
  const whole = wholeOf({ spans, beats });
  const rounds = Math.floor(gone / whole);
  const rest = gone - rounds * whole;
  const span = spans.findLast((one) => one.elapsed <= rest);
  return rounds * beats + span.start + (rest - span.elapsed) * span.share;
}

/** The tempo at a beat, as a share of the one it is played at. */
function shareAt({ spans, beats }, beat) {
  const rest = Math.max(0, beat) % beats;
  return spans.findLast(({ start }) => start <= rest + 1e-9).share;
}

/**
 * How it swings: the beats of a pair, the share of its first note, null where the tempo decides, the numbers of the pairs
 * that are played as written, and after how many pairs the strokes come again.
 */
function readSwing({ swing }, written) {
  if (!swing) return null;
  const pair = number(swing.pair);
  return { pair, share: swing.share && number(swing.share), even: new Set(swing.even), pairs: Math.round(written / pair) };
}

/** Where a written beat sounds in a swing at this tempo; thirds, and pairs that are even, stay where they are. */
function swung(swing, beat, tempo) {
  if (!swing) return beat;
  const start = Math.floor(beat / swing.pair + 1e-9) * swing.pair;
  const place = (beat - start) / swing.pair;
  const isHalved = Math.abs(place * 64 - Math.round(place * 64)) < 1e-6;
  if (!isHalved || swing.even.has(Math.round(start / swing.pair) % swing.pairs)) return beat;
  const share = swing.share ?? Math.max(1 / 2, Math.min(2 / 3, 1 - tempo / (600 * swing.pair)));
  const moved = place <= 1 / 2 ? 2 * place * share : share + (2 * place - 1) * (1 - share);
  return start + moved * swing.pair;
}

/** One stroke; `turns` counts its voice's strokes, and `fills` gives up the beats of the next buzz. */
function readStroke(all, stroke, index, turns, fills) {
  const voice = `${stroke.on} ${stroke.level}`;
  const own = `${voice} ${stroke.limb}`;
  const [turn, handTurn] = [voice, own].map((name) => turns[name] ?? 0);
  Object.assign(turns, { [voice]: turn + 1, [own]: handTurn + 1 });
  return {
    at: number(stroke.at),
    key: (stroke.written ?? stroke.at).join("/"),
    limb: stroke.limb,
    name: stroke.stroke ?? null,
    level: stroke.level,
    kind: stroke.kind,
    on: stroke.on,
    voice,
    own,
    turn,
    handTurn,
    gain: stroke.gain ?? 1,
    fills: stroke.kind === "buzz" ? (fills.shift() ?? 0) : 0,
    ahead: stroke.kind === "grace" ? readAhead(all, stroke, index) : null,
  };
}

const number = ([above, below]) => above / below;
const isHand = (stroke) => stroke.limb.endsWith("hand");

/** A grace note's own seconds, those of its ornament's first grace note, and the beats that one may be ahead. */
function readAhead(all, stroke, index) {
  let first = index;
  while (first > 0 && isOneOrnament(all[first - 1], stroke)) first -= 1;
  return {
    seconds: stroke.ahead_ms / 1000,
    first: all[first].ahead_ms / 1000,
    atMost: number(stroke.ahead_at_most),
  };
}

function isOneOrnament(before, stroke) {
  return before.kind === "grace" && before.at.join() === stroke.at.join() && isHand(before) === isHand(stroke);
}

/** Where the beat of a run is drawn, in beats of the written bars. */
export function drawnAt({ passages }, beat) {
  const once = passages.reduce((beats, [from, to]) => beats + to - from, 0);
  let left = beat % once;
  for (const [from, to] of passages) {
    if (left < to - from) return from + left;
    left -= to - from;
  }
  return passages[0][0];
}

/** How many beats are counted in: a bar, and before a pick-up as much of the next bar as lies before it. */
const countedIn = ({ bar, pickup }) => (pickup ? 2 * bar - pickup : bar);

/** A run whose first beat (or the count-in before it) sounds at `time`. */
export function startRun(score, time, tempo, countIn) {
  const beat = countIn ? -countedIn(score) : 0;
  return { anchors: [{ beat, time, tempo }], next: beat, climbsFrom: 0, pace: score.pace };
}

/** When a beat that is not yet given out sounds, in seconds. */
export function timeAt(run, beat) {
  const last = run.anchors.at(-1);
  return last.time + ((elapsed(run.pace, beat) - elapsed(run.pace, last.beat)) * 60) / last.tempo;
}

const beatOn = ({ pace }, anchor, time) =>
  beatAfter(pace, elapsed(pace, anchor.beat) + ((time - anchor.time) * anchor.tempo) / 60);

/** The anchor that holds at `time`. */
export function anchorAt(run, time) {
  return run.anchors.findLast((anchor) => anchor.time <= time) ?? run.anchors[0];
}

/** The beat that is played at `time`. */
export function beatAt(run, time) {
  return beatOn(run, anchorAt(run, time), time);
}

// Closer together than this is at one moment.
const TOGETHER_S = 0.001;

/** Of sounds by their time: those that hands, and those that feet struck last at `time`. */
export function struckLast(sounds, time) {
  const last = { hand: [], foot: [] };
  for (const sound of sounds) {
    if (sound.time > time) break;
    if (!sound.limb) continue;
    const lane = sound.limb.slice(-4);
    const together = last[lane].length && sound.time - last[lane][0].time < TOGETHER_S;
    last[lane] = together ? [...last[lane], sound] : [sound];
  }
  return [...last.hand, ...last.foot];
}

/** For how many seconds the pattern itself was played up to `time`; what is counted in is no part of it. */
export function playedFor(run, time) {
  const before = run.anchors.findLast((anchor) => anchor.beat <= 0);
  return Math.max(0, time - before.time + (elapsed(run.pace, before.beat) * 60) / before.tempo);
}

/**
 * All sounds of the beats from `run.next` to the one at `until` seconds, by time, and the run as it is then.
 *
 * A grace note comes with its main note, so `until` must be further ahead than the longest ornament is.
 */
export function advance(score, run, wish, until) {
  const sounds = [];
  let now = run;
  for (;;) {
    const step = nextStep(score, now, wish.climb);
    const goal = Math.min(beatOn(now, now.anchors.at(-1), until), wish.end);
    const to = Math.max(now.next, Math.min(goal, step));
    sounds.push(...clicksOf(score, now, wish, to), ...strokesOf(score, now, wish, to));
    now = { ...now, next: to };
    if (to < step) break;
    now = withTempo(now, climbed(now.anchors.at(-1).tempo, wish.climb), true);
  }
  return { sounds: sounds.sort((one, other) => one.time - other.time), run: now };
}

/** The beat at which a climb takes its next step, or Infinity. */
function nextStep(score, run, climb) {
  const last = run.anchors.at(-1);
  if (!climb || climbed(last.tempo, climb) === last.tempo) return Infinity;
  const length = climb.every * score.pass;
  const steps = Math.max(1, Math.ceil((run.next - run.climbsFrom) / length));
  const beat = run.climbsFrom + steps * length;
  return beat === last.beat ? beat + length : beat;
}

function climbed(tempo, climb) {
  return Math.max(tempo, Math.min(climb.top, tempo + climb.by));
}

/** The run at another tempo from the beat `next`. */
export function withTempo(run, tempo, climbed = false) {
  return { ...run, anchors: [...run.anchors, { beat: run.next, time: timeAt(run, run.next), tempo, climbed }] };
}

function clicksOf(score, run, wish, to) {
  const sounds = [];
  for (let beat = Math.floor(run.next); beat < to; beat += 1) {
    if (!wish.click && beat >= 0) break;
    const inBar = (((beat - score.pickup) % score.bar) + score.bar) % score.bar;
    const bar = Math.floor((beat - score.pickup) / score.bar);
    // A count-in has every beat, whatever is practised.
    for (const { at, gain, isBeat } of clicksIn(beat < 0 ? EVERY_BEAT : (wish.clicks ?? EVERY_BEAT), bar, inBar)) {
      const sounding = beat + at;
      if (sounding < run.next || sounding >= to) continue;
      const level = isBeat && score.accented.has(inBar) ? "high" : "low";
      const time = timeAt(run, sounding);
      sounds.push({ time, beat: sounding, place: "click", level, gain, turn: 0, handTurn: 0, kind: "click" });
    }
  }
  return sounds;
}

function strokesOf(score, run, wish, to) {
  const sounds = [];
  for (let round = Math.max(0, Math.floor(run.next / score.written)); round * score.written < to; round += 1) {
    for (const stroke of score.strokes) {
      const beat = round * score.written + stroke.at;
      if (beat >= run.next && beat < to && isHeard(stroke, wish)) {
        const turn = stroke.turn + round * score.turns[stroke.voice];
        const handTurn = stroke.handTurn + round * score.turns[stroke.own];
        const limb = playedBy(stroke.limb, wish);
        sounds.push(...soundsOf({ ...stroke, limb, turn, handTurn }, beat, run, score));
      }
    }
  }
  return sounds;
}

/** The limb that plays a stroke, seen by this reader's left-handed switch. */
function playedBy(limb, wish) {
  return (limb.endsWith("hand") ? wish.swapHands : wish.swapFeet) ? OTHER[limb] : limb;
}

function isHeard(stroke, wish) {
  return wish.hands === "both" || playedBy(stroke.limb, wish) === wish.hands;
}

function soundsOf(stroke, beat, run, { buzz, drag, swing, stretch = 1 }) {
  const tempo = run.anchors.at(-1).tempo * shareAt(run.pace, beat) * stretch;
  const { key, limb, name, kind, level, turn, handTurn, on: place } = stroke;
  const moved = swung(swing, beat, tempo);
  const time = timeAt(run, moved) - (stroke.ahead ? stretch * secondsAhead(stroke.ahead, tempo, drag) : 0);
  if (kind !== "buzz") return [{ time, beat, place, level, gain: stroke.gain, turn, handTurn, kind, limb, name, key }];
  const end = Math.max(moved, swung(swing, beat + stroke.fills, tempo));
  return bounces(timeAt(run, end) - timeAt(run, moved), buzz, stretch).map((bounce, index) => ({
    ...{ time: time + bounce.after, beat, place, level, gain: bounce.gain * stroke.gain, limb },
    ...{ turn: turn + index, handTurn: handTurn + index },
    ...(index === 0 ? { kind, name, key } : { kind: "bounce" }),
  }));
}

/** A buzz that fills `length` seconds, as the list of the sounds says: how long after, how much softer than a stroke. */
function bounces(length, { spacing, first_db: first, drop_db: drop, fade_db: fade }, stretch) {
  const count = Math.max(2, Math.round(length / spacing / stretch));
  const softer = (index) => (index === 0 ? first : drop + (fade * index) / count);
  return Array.from({ length: count }, (_, index) => ({
    after: (length * index) / count,
    gain: 10 ** (-softer(index) / 20),
  }));
}

/**
 * How far ahead of its main note a grace note sounds: the whole ornament is squeezed in proportion. A drag closes with
 * the tempo.
 */
function secondsAhead(ahead, tempo, drag) {
  const share = Math.min(1, Math.max(0, (tempo - drag.from) / (drag.to - drag.from)));
  const closed = ahead.first > drag.longer_than ? 1 - share * (1 - drag.closes_to) : 1;
  return ahead.seconds * Math.min(closed, (ahead.atMost * 60) / tempo / ahead.first);
}

/**
 * From which beat a run may still be changed at `now`: after everything that sounds before `now + margin` seconds,
 * so that an ornament which has begun is not torn from its main note.
 */
export function changeableFrom(run, sounds, now, margin) {
  const soon = now + margin;
  const begun = sounds.filter(({ time }) => time < soon && time > soon - 1).map(({ beat }) => beat + 1e-9);
  return Math.min(run.next, Math.max(beatAt(run, soon), ...begun));
}

/** The run taken back to `beat`, to be given out anew from there. */
export function takenBack(run, beat) {
  const kept = run.anchors.filter((anchor, index) => index === 0 || anchor.beat <= beat);
  return { ...run, anchors: kept, next: beat };
}

/** The run with one more bar of count-in before the first beat; only for a run that is given out up to beat 0. */
export function countOneMoreBar(score, run) {
  const { tempo } = run.anchors.at(-1);
  const again = { beat: -score.bar, time: timeAt(run, 0), tempo };
  return { ...run, anchors: [...run.anchors, again], next: -score.bar };
}

/** The run picked up at `time`, after a stall longer than what was given out. */
export function pickUp(run, time) {
  const { tempo } = run.anchors.at(-1);
  return { ...run, anchors: [...run.anchors, { beat: run.next, time, tempo }] };
}
