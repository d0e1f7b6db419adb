/**
 * A part of an exercise, or the exercise from another place on, as a score of its own. Pure: it knows no audio and no page.
 *
 * @typedef {[number, number][]} Pieces from beat to beat of the first pass, in the order in which they are to be played;
 *   they begin and end on beats, so that no pair of swung notes is torn
 */

/** A score that plays these pieces one after the other and then comes round. */
export function arranged(score, pieces) {
  const laid = [];
  let length = 0;
  for (const [from, to] of pieces) {
    laid.push({ from, to, by: length - from });
    length += to - from;
  }
  const strokes = laid.flatMap(({ from, to, by }) =>
    score.strokes.filter(({ at }) => at >= from && at < to).map((stroke) => ({ ...stroke, at: stroke.at + by })),
  );
  const pickup = (((score.pickup - laid[0].from) % score.bar) + score.bar) % score.bar;
  const passages = laid.flatMap(({ from, to }) => drawnBetween(score.passages, from, to));
  const [swing, pace] = [swingOf(score.swing, laid, length), paceOf(score.pace, laid, length)];
  return { ...score, strokes, pickup, passages, swing, pace, written: length, pass: length };
}

/** What of the drawing is played from beat to beat; after its last passage it comes round. */
export function drawnBetween(passages, from, to) {
  const found = [];
  for (let at = 0; at < to; ) {
    for (const [start, end] of passages) {
      const [low, high] = [Math.max(from, at), Math.min(to, at + end - start)];
      if (low < high) found.push([start + low - at, start + high - at]);
      at += end - start;
    }
  }
  return found;
}

function swingOf(swing, laid, length) {
  if (!swing) return null;
  const even = new Set();
  for (const { from, to, by } of laid) {
    for (const pair of swing.even) {
      const at = pair * swing.pair;
      if (at >= from && at < to) even.add(Math.round((at + by) / swing.pair));
    }
  }
  return { ...swing, even, pairs: Math.round(length / swing.pair) };
}

function paceOf({ spans }, laid, beats) {
  const found = [];
  for (const { from, to, by } of laid) {
    for (const [index, { start, share }] of spans.entries()) {
      const [low, high] = [Math.max(from, start), Math.min(to, spans[index + 1]?.start ?? Infinity)];
      if (low >= high) continue;
      const before = found.at(-1);
      const elapsed = before ? before.elapsed + (low + by - before.start) / before.share : 0;
      found.push({ start: low + by, share, elapsed });
    }
  }
  return { spans: found, beats };
}

/** The first beat of a pass at which a place of the drawing is played; null where it never is. */
export function playedAt(passages, place) {
  let at = 0;
  for (const [from, to] of passages) {
    if (place >= from && place < to) return at + place - from;
    at += to - from;
  }
  return null;
}
