/** One playing of one exercise: gives its sounds to the desk a little ahead of the audio clock. */

import * as schedule from "./player-schedule.js";

// So far ahead are sounds given out. Long enough for a slow phone that scrolls; a change takes them back.
const AHEAD_S = 1.5;
// What sounds sooner than this is no longer changed.
const MARGIN_S = 0.06;
// From the press to the first sound, once everything is there.
const LEAD_S = 0.08;
// Sounds are late when the next beat is closer than the longest ornament that may stand before it.
const ORNAMENT_S = 0.16;
// While sounds are on their way, this long before the first beat another bar is counted.
const DECIDE_S = 0.35;
const KEPT_S = 6;

export class Transport {
  #context;
  #desk;
  #score;
  #wish;
  #run;
  #given = [];
  #waiting = true;

  /**
   * @param {AudioContext} context
   * @param {import("./player-audio.js").Desk} desk
   * @param {object} score what `readScore` gives
   */
  constructor(context, desk, score) {
    this.#context = context;
    this.#desk = desk;
    this.#score = score;
  }

  /** Starts with a bar of clicks, or at once. Until `soundsAreHere` is called it goes on counting in. */
  start(wish, tempo, countIn) {
    this.#wish = { ...wish, end: wish.loop ? Infinity : this.#score.pass };
    const ornament = countIn ? 0 : ORNAMENT_S * (this.#score.stretch ?? 1);
    this.#run = schedule.startRun(this.#score, this.#context.currentTime + LEAD_S + ornament, tempo, countIn);
    this.#giveOut();
  }

  soundsAreHere() {
    this.#waiting = false;
    this.tick();
  }

  /** Plays on by another wish, from the next sound that can still be changed. A `tempo` takes hold there. */
  change(wish, tempo = null) {
    const now = this.#context.currentTime;
    const { pass } = this.#score;
    const from = schedule.changeableFrom(this.#run, this.#given.map(({ sound }) => sound), now, MARGIN_S);
    this.#wish = { ...wish, end: wish.loop ? Infinity : Math.max(1, Math.ceil(from / pass)) * pass };
    this.#run = schedule.takenBack(this.#run, from);
    if (tempo !== null) {
      const climbsFrom = Math.max(0, Math.floor(from / pass)) * pass;
      this.#run = { ...schedule.withTempo(this.#run, tempo), climbsFrom };
    }
    const undone = this.#given.filter(({ sound }) => sound.beat >= from && sound.time > now);
    this.#desk.cancel(undone.map(({ voice }) => voice), now + MARGIN_S);
    this.#given = this.#given.filter((entry) => !undone.includes(entry));
    this.#giveOut();
  }

  /** What is heard now, on the context's clock. */
  get #heard() {
    return this.#context.currentTime - (this.#context.outputLatency || 0);
  }

  /** Is a playing that does not loop over? */
  get isOver() {
    return this.#run.next >= this.#wish.end && this.#context.currentTime >= schedule.timeAt(this.#run, this.#wish.end);
  }

  /** For how many seconds the pattern has sounded, by the clock of the sound. */
  get playedSeconds() {
    const end = this.isOver ? schedule.timeAt(this.#run, this.#wish.end) : Infinity;
    return schedule.playedFor(this.#run, Math.min(this.#heard, end));
  }

  /** The beat that is heard now: below 0 in a count-in. */
  get beat() {
    return schedule.beatAt(this.#run, this.#heard);
  }

  /** The tempo that is heard now, and from which beat on. */
  get anchor() {
    return schedule.anchorAt(this.#run, this.#heard);
  }

  /** When the first beat sounds, or sounded, at the tempo of now: seconds on the context's clock. */
  get zero() {
    return schedule.timeAt(this.#run, 0);
  }

  /** The strokes that hands and feet played last. */
  get strokes() {
    return schedule.struckLast(this.#given.map(({ sound }) => sound), this.#heard);
  }

  /** To be called every so often, many times in `AHEAD_S`. */
  tick() {
    const now = this.#context.currentTime;
    const { next } = this.#run;
    if (next >= this.#wish.end) return;
    const left = schedule.timeAt(this.#run, next) - now;
    if (this.#waiting && next === 0 && left < DECIDE_S) {
      this.#run = schedule.countOneMoreBar(this.#score, this.#run);
    } else if (left < ORNAMENT_S) {
      this.#run = schedule.pickUp(this.#run, now + LEAD_S + ORNAMENT_S);
    }
    this.#giveOut();
  }

  #giveOut() {
    const now = this.#context.currentTime;
    const wish = this.#waiting ? { ...this.#wish, end: 0 } : this.#wish;
    const { sounds, run } = schedule.advance(this.#score, this.#run, wish, now + AHEAD_S);
    this.#run = run;
    const recent = this.#given.filter(({ sound }) => sound.time > now - KEPT_S);
    const added = sounds.map((sound) => ({ sound, voice: this.#desk.play(sound) }));
    this.#given = [...recent, ...added].sort((one, other) => one.sound.time - other.sound.time);
  }
}
