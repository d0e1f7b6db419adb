/**
 * Sets the strokes that were heard against those that were asked for. Pure.
 *
 * @typedef {{time: number, kind: "main"|"grace", level: string, isOptional: boolean}} Asked
 *   `time` in seconds; an optional stroke (a bounce of a buzz) may be missing without a word
 * @typedef {{time: number, level: number}} Heard seconds on the same clock, and decibels with no fixed zero
 * @typedef {{pairs: [number, number][], missed: number[], extra: number[], offset: number}} Fit
 *   pairs of places in `asked` and `heard`; `offset`: seconds from the first stroke asked to where it was heard
 */

// How loud strokes are meant to be, in decibels under an accent (the course's own kit).
const MEANT_DB = { accent: 0, tap: -10, ghost: -17 };
const GRACE_DB = -12;

// The start is looked for from 0.15 s before to 1.2 s after where it would be without any delay, in tempos of 6 % to
// either side; devices take about 60 ms.
const EARLIEST_S = -0.15;
const LATEST_S = 1.2;
const OFFSET_STEP_S = 0.01;
const MOST_DRIFT = 0.06;
const DRIFT_STEP = 0.005;
const USUAL_S = 0.06;
const USUAL_SPREAD_S = 0.15;
const NEAR_S = 0.025;
const NEAR_DB = 7;

// What it costs to leave a stroke out, to take one as extra, to pair strokes so far apart.
const MISSED = 4;
const MISSED_GRACE = 2;
const MISSED_OPTIONAL = 0.2;
const EXTRA = 4;
const WIDEST_S = 0.5;
const LEVEL_SPREAD_DB = 8;
const COST_OF_TIME_AT_MOST = 12;
const COST_OF_LEVEL_AT_MOST = 4;
// A share of each distance is taken over, so that the fit follows a player who drifts.
const FOLLOWED = 0.15;
const FOLLOWED_TEMPO = 0.01;
const FOLLOWED_AT_MOST_S = 0.04;

export function median(values) {
  const sorted = [...values].sort((one, other) => one - other);
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

/** How loud a stroke is meant to be, in decibels under an accent. */
export const meantLevel = ({ kind, level }) => (kind === "grace" ? GRACE_DB : MEANT_DB[level]);

/**
 * Fits what was heard to what was asked, or null where there is too little of either. With `around`, the offset of a fit
 * before this one, the start is looked for near that.
 *
 * @param {Asked[]} asked by time
 * @param {Heard[]} heard by time
 * @returns {Fit|null}
 */
export function fitHeard(asked, heard, around = null) {
  if (asked.length === 0 || heard.length === 0) return null;
  const zero = median(heard.map(({ level }) => level)) - median(asked.map(meantLevel));
  const start = around === null ? findStart(asked, heard, zero) : { offset: around, ratio: 1 };
  return { ...align(asked, heard, start, zero), offset: start.offset };
}

/** Where most of what was heard falls together with what was asked. */
function findStart(asked, heard, zero) {
  const first = asked[0].time;
  const times = asked.map(({ time }) => time - first);
  const levels = asked.map((stroke) => meantLevel(stroke) + zero);
  let best = { offset: USUAL_S, ratio: 1, score: -1 };
  for (let drift = -MOST_DRIFT; drift <= MOST_DRIFT + 1e-9; drift += DRIFT_STEP) {
    for (let offset = EARLIEST_S; offset <= LATEST_S; offset += OFFSET_STEP_S) {
      const together = togetherness(times, levels, heard, first + offset, 1 + drift);
      const away = (offset - USUAL_S) / USUAL_SPREAD_S;
      const usual = together * (0.85 + 0.15 / (1 + away * away)) * (1 - Math.abs(drift));
      const score = usual + 0.08 * beginsThere(heard, first + offset);
      if (score > best.score) best = { offset, ratio: 1 + drift, score };
    }
  }
  return best;
}

/** From 0 to 1: how many strokes lie where one is asked, and are about as loud as that. */
function togetherness(times, levels, heard, start, ratio) {
  let sum = 0;
  let place = 0;
  for (const { time, level } of heard) {
    const at = (time - start) / ratio;
    while (place < times.length - 1 && times[place + 1] <= at) place += 1;
    let best = 0;
    for (const near of place + 1 < times.length ? [place, place + 1] : [place]) {
      const apart = (times[near] - at) / NEAR_S;
      if (Math.abs(apart) > 4) continue;
      const louder = (level - levels[near]) / NEAR_DB;
      best = Math.max(best, Math.exp(-(apart * apart + louder * louder) / 2));
    }
    sum += best;
  }
  return (2 * sum) / (heard.length + times.length);
}

/** A player begins with the first stroke: one lies there, and none shortly before. */
function beginsThere(heard, start) {
  const hit = heard.some(({ time }) => Math.abs(time - start) < 0.03);
  const early = heard.some(({ time }) => time - start < -0.045 && time - start > -0.6);
  return Number(hit) - Number(early);
}

/** The cheapest way through both lists, in order. */
function align(asked, heard, start, zero) {
  const [rows, columns] = [asked.length + 1, heard.length + 1];
  const cells = Array.from({ length: rows * columns }, () => null);
  cells[0] = { cost: 0, offset: start.offset, drift: start.ratio - 1, since: asked[0].time, from: null, by: "" };
  const put = (row, column, cell) => {
    const at = row * columns + column;
    if (cells[at] === null || cell.cost < cells[at].cost) cells[at] = cell;
  };
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const cell = cells[row * columns + column];
      if (cell === null) continue;
      if (row < asked.length) put(row + 1, column, { ...cell, cost: cell.cost + costOfMissing(asked[row]), from: cell, by: "missed" });
      if (column < heard.length) put(row, column + 1, { ...cell, cost: cell.cost + EXTRA, from: cell, by: "extra" });
      if (row < asked.length && column < heard.length) {
        const paired = pair(cell, asked, row, heard[column], zero);
        if (paired) put(row + 1, column + 1, paired);
      }
    }
  }
  return wayBack(cells.at(-1), asked.length, heard.length);
}

function costOfMissing({ kind, isOptional }) {
  if (isOptional) return MISSED_OPTIONAL;
  return kind === "grace" ? MISSED_GRACE : MISSED;
}

function pair(cell, asked, row, { time, level }, zero) {
  const stroke = asked[row];
  const gone = stroke.time - cell.since;
  const offset = cell.offset + cell.drift * gone;
  const apart = time - stroke.time - offset;
  if (Math.abs(apart) >= WIDEST_S) return null;
  const room = Math.min(
    row > 0 ? stroke.time - asked[row - 1].time : WIDEST_S,
    row + 1 < asked.length ? asked[row + 1].time - stroke.time : WIDEST_S,
  );
  const spread = Math.max(0.012, Math.min(0.05, 0.16 * room));
  const louder = (level - zero - meantLevel(stroke)) / LEVEL_SPREAD_DB;
  const cost =
    Math.min(COST_OF_TIME_AT_MOST, (apart * apart) / (2 * spread * spread)) +
    Math.min(COST_OF_LEVEL_AT_MOST, (louder * louder) / 2);
  const taken = Math.max(-FOLLOWED_AT_MOST_S, Math.min(FOLLOWED_AT_MOST_S, apart));
  const drift = cell.drift + (gone > 0 ? (FOLLOWED_TEMPO * taken) / Math.max(0.08, gone) : 0);
  return { cost: cell.cost + cost, offset: offset + FOLLOWED * taken, drift, since: stroke.time, from: cell, by: "pair" };
}

function wayBack(last, askedCount, heardCount) {
  const found = { pairs: [], missed: [], extra: [] };
  let [row, column] = [askedCount, heardCount];
  for (let cell = last; cell.from; cell = cell.from) {
    if (cell.by !== "extra") row -= 1;
    if (cell.by !== "missed") column -= 1;
    if (cell.by === "pair") found.pairs.push([row, column]);
    else if (cell.by === "missed") found.missed.push(row);
    else found.extra.push(column);
  }
  for (const list of Object.values(found)) list.reverse();
  return found;
}
