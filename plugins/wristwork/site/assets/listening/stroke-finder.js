/**
 * Finds strokes in what a microphone hears: when each began, and how loud it was. Pure: it knows no device and no page.
 *
 * The sound is cut into four bands and their energy is looked at in steps of half a millisecond. A stroke is where the
 * energy of the next 4 to 8 ms speaks against that of the 8 to 12 ms before, by the likelihood that both are the same
 * noise, summed over the bands. The course's click lies between the bands, so it counts as no stroke when it is heard.
 *
 * @typedef {{time: number, level: number, over: number}} Stroke
 *   `time` in seconds from the first sample, `level` in decibels (no fixed zero), `over` the decibels over the noise
 */

// Hertz from and to, steps of half a millisecond looked at after and before, and how much of a click leaks in. In tonal
// bands a ringing head beats with itself: there the loudest of several stretches before is what counts.
const BANDS = [
  { low: 110, high: 380, after: 16, before: 24, isTonal: true, leak: 0 },
  { low: 380, high: 1100, after: 10, before: 20, isTonal: true, leak: 0 },
  { low: 1100, high: 2900, after: 8, before: 20, isTonal: false, leak: 0.002 },
  { low: 6800, high: 13000, after: 8, before: 20, isTonal: false, leak: 0.02 },
];
// The two pitches of the course's click (see the sound of the clicks), and the middle of them.
const CLICKS_HZ = [4100, 5150];
const CLICK_MIDDLE_HZ = 4600;
const NOTCH_Q = 3;

const STEPS_A_SECOND = 2000;
const KEPT = 512; // steps, a power of two
const LAST = KEPT - 1;
const SETTLING = 80; // steps until the noise is known
const LONGEST_AFTER = 16;
const LEVEL_STEPS = 24; // 12 ms of a stroke are its level
const PICKED_AFTER = 12; // no likelier place so many steps to either side

// A sum of likelihoods from which it is a stroke, and one that needs no more proof; one band alone proves so much at most.
const LIKELY = 12;
const SURE = 30;
const BAND_AT_MOST = 40;
// After a stroke its own ring hides what lies so many decibels under it, and as many more for each millisecond.
const HIDDEN_DB = 2;
const HIDDEN_DB_PER_MS = 0.35;
const CLOSEST_MS = 15;
// What lies so far under the usual strokes is taken for noise unless it is sure.
const FAR_UNDER_DB = 22;
const ECHO_S = 0.03;
const TINY = 1e-14;
const FULL_SCALE = 0.985;

export class StrokeFinder {
  /** Told of each stroke. @type {(stroke: Stroke) => void} */
  found;
  #rate;
  #stepLength;
  #bands;
  #notches;
  #clickBand;
  #clickSum = 0;
  #clicks = new Float64Array(KEPT);
  #scores = new Float64Array(KEPT);
  #count = 0;
  #steps = 0;
  #last = null;
  #usual = null;
  #clipped = 0;
  #heard = 0;

  /**
   * @param {number} rate samples a second
   * @param {(stroke: Stroke) => void} found
   */
  constructor(rate, found) {
    this.found = found;
    this.#rate = rate;
    this.#stepLength = Math.round(rate / STEPS_A_SECOND);
    this.#notches = CLICKS_HZ.map((hertz) => biquad("notch", hertz, NOTCH_Q, rate));
    this.#clickBand = biquad("band", CLICK_MIDDLE_HZ, NOTCH_Q, rate);
    this.#bands = BANDS.map((band) => makeBand(band, rate));
  }

  /** Hears the next samples. @param {ArrayLike<number>} samples */
  hear(samples) {
    for (let index = 0; index < samples.length; index += 1) this.#hearOne(samples[index]);
  }

  #hearOne(sample) {
    this.#heard += 1;
    if (sample > FULL_SCALE || sample < -FULL_SCALE) this.#clipped += 1;
    let value = sample;
    for (const notch of this.#notches) value = filtered(notch, value);
    const click = filtered(this.#clickBand, sample);
    this.#clickSum += click * click;
    for (const band of this.#bands) {
      let part = value;
      for (const filter of band.filters) part = filtered(filter, part);
      band.sum += part * part;
    }
    this.#count += 1;
    if (this.#count === this.#stepLength) {
      this.#count = 0;
      this.#step();
    }
  }

  /** How loud the noise is, in the decibels of strokes, and which share of the samples since the last call was clipped. */
  condition() {
    const clipped = this.#heard ? this.#clipped / this.#heard : 0;
    [this.#clipped, this.#heard] = [0, 0];
    return { noise: decibels(this.#noise()), clipped };
  }

  #noise() {
    return this.#bands.reduce((sum, { floor }) => sum + floor, 0);
  }

  #step() {
    const now = this.#steps;
    this.#steps += 1;
    this.#clicks[now & LAST] = this.#clickSum / this.#stepLength;
    this.#clickSum = 0;
    for (const band of this.#bands) {
      band.energy[now & LAST] = band.sum / this.#stepLength;
      band.sum = 0;
    }
    if (now < SETTLING) {
      if (now > 20) for (const band of this.#bands) settle(band, now);
      return;
    }
    for (const band of this.#bands) follow(band, now);
    const here = now - LONGEST_AFTER; // all that comes after it is known by now
    this.#scores[here & LAST] = this.#likelihood(here);
    this.#pick(here - PICKED_AFTER);
  }

  #likelihood(here) {
    const noise = this.#noise();
    const click = most(this.#clicks, here - 4, here + 9);
    let sum = 0;
    for (const band of this.#bands) {
      const added = band.floor * 0.3 + noise * 0.003 + TINY + band.leak * click;
      const after = mean(band, here, here + band.after) + added;
      const ratio = after / (energyBefore(band, here) + added);
      if (ratio > 1) sum += Math.min(BAND_AT_MOST, (band.freedom / 2) * (ratio - 1 - Math.log(ratio)));
    }
    return sum;
  }

  /** Is this step likelier than those around it, and likely enough? */
  #pick(here) {
    const score = this.#scores[here & LAST];
    if (!(score >= LIKELY)) return;
    for (let other = here - PICKED_AFTER; other <= here + PICKED_AFTER; other += 1) {
      const rival = this.#scores[other & LAST];
      if (rival > score || (other < here && rival === score)) return;
    }
    this.#consider(here, score);
  }

  #consider(here, score) {
    const level = decibels(this.#bands.reduce((sum, band) => sum + risen(band, here), 0));
    const time = this.#onset(here);
    if (this.#last) {
      const apart = (time - this.#last.time) * 1000;
      if (apart < CLOSEST_MS || level < this.#last.level - (HIDDEN_DB + HIDDEN_DB_PER_MS * apart)) return;
    }
    const usual = this.#usual ?? -200;
    if (level < usual - FAR_UNDER_DB && score < SURE) return;
    const isEcho = this.#last && time - this.#last.time < ECHO_S && level < this.#last.level;
    if (isEcho && this.#bandsRisen(here) < 2) return;
    this.#usual = this.#usual === null ? level : Math.max(level, usual + (level - usual) * 0.15);
    this.#last = { time, level, over: level - decibels(this.#noise()) };
    this.found(this.#last);
  }

  #bandsRisen(here) {
    const noise = this.#noise();
    return this.#bands.filter((band) => {
      const added = band.floor * 0.3 + noise * 0.003;
      return mean(band, here, here + band.after) + added > 1.6 * (mean(band, here - band.after, here) + added);
    }).length;
  }

  /** When it begins: where a quarter of the rise is reached, within a step by how much of it is filled. */
  #onset(here) {
    let before = 0;
    for (let step = here - 10; step < here - 2; step += 1) before += this.#strength(step) / 8;
    let top = 0;
    for (let step = here - 3; step <= here + 6; step += 1) top = Math.max(top, this.#strength(step));
    const goal = before + 0.25 * (top - before);
    let step = here - 3;
    while (step < here + 6 && this.#strength(step) < goal) step += 1;
    const [low, high] = [this.#strength(step - 1), this.#strength(step)];
    const part = high > low ? Math.min(1, Math.max(0, (goal - low) / (high - low))) : 1;
    return ((step - 0.5 + part) * this.#stepLength) / this.#rate;
  }

  /** The energy of a step over the noise; the lowest band is the slowest and says least. */
  #strength(step) {
    const [lowest, ...others] = this.#bands;
    const over = (band) => band.energy[step & LAST] / (band.floor + TINY);
    return others.reduce((sum, band) => sum + over(band), 0.3 * over(lowest));
  }
}

function makeBand({ low, high, ...band }, rate) {
  const filters = [
    ...butterworth("high", low, rate, low > 5000 ? 6 : 4),
    ...butterworth("low", Math.min(high, rate * 0.45), rate, low > 1000 ? 6 : 4),
  ];
  const freedom = (2 * (high - low) * band.after) / STEPS_A_SECOND;
  return { ...band, filters, freedom, sum: 0, floor: 1e-12, energy: new Float64Array(KEPT) };
}

/** The noise of the first moments. */
function settle(band, now) {
  const energy = mean(band, now - 16, now);
  band.floor = (now === 21 ? energy : Math.min(band.floor * 1.02, energy)) + TINY;
}

/** The noise goes down fast and up slowly: strokes are no noise. */
function follow(band, now) {
  const energy = mean(band, now - 40, now);
  band.floor = energy < band.floor ? band.floor + (energy - band.floor) * 0.05 : band.floor * 1.0004;
}

function energyBefore(band, here) {
  if (!band.isTonal) return mean(band, here - band.before, here);
  const { after } = band;
  const half = after >> 1;
  return Math.max(
    mean(band, here - after, here),
    mean(band, here - 2 * after, here - after),
    mean(band, here - after - half, here - half),
  );
}

/** By how much the energy of a band rose with a stroke: over what was there before, or is there after it. */
function risen(band, here) {
  const end = here + LEVEL_STEPS;
  const around = Math.min(mean(band, here - 12, here - 1), mean(band, end - 4, end));
  return Math.max(0, mean(band, here, end) - around);
}

function mean({ energy }, from, to) {
  let sum = 0;
  for (let step = from; step < to; step += 1) sum += energy[step & LAST];
  return sum / (to - from);
}

function most(values, from, to) {
  let found = 0;
  for (let step = from; step < to; step += 1) found = Math.max(found, values[step & LAST]);
  return found;
}

const decibels = (energy) => 10 * Math.log10(energy + 1e-20);

/** A Butterworth filter of an even order, as filters of the second. */
function butterworth(kind, hertz, rate, order) {
  const q = (part) => 1 / (2 * Math.sin((Math.PI * (2 * part + 1)) / (2 * order)));
  return Array.from({ length: order / 2 }, (_, part) => biquad(kind, hertz, q(part), rate));
}

/** A filter of the second order by the bilinear transform. */
function biquad(kind, hertz, q, rate) {
  const angle = (2 * Math.PI * hertz) / rate;
  const cos = Math.cos(angle);
  const alpha = Math.sin(angle) / (2 * q);
  const above = {
    high: [(1 + cos) / 2, -(1 + cos), (1 + cos) / 2],
    low: [(1 - cos) / 2, 1 - cos, (1 - cos) / 2],
    band: [alpha, 0, -alpha],
    notch: [1, -2 * cos, 1],
  }[kind];
  const whole = 1 + alpha;
  const [b0, b1, b2] = above.map((value) => value / whole);
  return { b0, b1, b2, a1: (-2 * cos) / whole, a2: (1 - alpha) / whole, one: 0, two: 0 };
}

function filtered(filter, value) {
  const out = filter.b0 * value + filter.one;
  filter.one = filter.b1 * value - filter.a1 * out + filter.two;
  filter.two = filter.b2 * value - filter.a2 * out;
  return out;
}
