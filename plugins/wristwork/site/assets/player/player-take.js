/** One playing, from the press of a button to the silence after it. */

import { LANGUAGE, say } from "../base/words.js";
import { maySleep, stayAwake } from "../base/awake.js";
import { audioContext, Desk, restSoon, wake } from "./player-audio.js";
import { settings } from "./player-settings.js";
import { Transport } from "./player-transport.js";

const TICK_MS = 60;
const CLICKS = [
  ["click", "high"],
  ["click", "low"],
];

const MUTE =
  say("The sound could not start. See that the phone's silent switch is off and its volume is up, then press Play again.");
const NO_AUDIO = say("This browser cannot play sounds from a page like this one. The previews may still work.");
const NO_DATA = say("This exercise could not be fetched. Check the connection, then press Play again.");
const NO_SOUNDS = say("The sounds could not be fetched. Check the connection, then press Play again.");
const INTERRUPTED = say("Something else took the sound. Press Play to start again.");

/**
 * @typedef {object} Reports what a take tells its player
 * @property {(state: string) => void} state `counting`, then `playing`
 * @property {(transport: Transport) => void} frame before each picture that is drawn
 * @property {(words: string) => void} notice something that a reader should know; it plays on
 * @property {(words: string, seconds: number) => void} over why it is over (nothing where that is plain), and how long
 *   the pattern sounded
 */
export class Take {
  transport = null;

  #shelf;
  #reports;
  #context = null;
  #desk = null;
  #timer = 0;
  #state = "starting";
  #isOver = false;

  /**
   * @param {import("./player-audio.js").Shelf} shelf
   * @param {Reports} reports
   */
  constructor(shelf, reports) {
    this.#shelf = shelf;
    this.#reports = reports;
  }

  /**
   * Starts; to be called from a press, for only then a browser lets sound begin.
   *
   * @param {Promise<any>} scoring gives the score, or an error with `words` for the reader
   * @param {() => {wish: {countIn: boolean}, tempo: number}} how asked when the first sound is about to be given out
   */
  async begin(scoring, how) {
    this.#context = audioContext();
    if (!this.#context) return this.stop(NO_AUDIO);
    const waking = wake(this.#context);
    const score = await scoring.catch((error) => ({ words: error.words ?? NO_DATA }));
    if (score.words) return this.stop(score.words);
    const clicks = this.#shelf.fetch(CLICKS, this.#context);
    const missing = await clicks.catch(() => null);
    if (!(await waking)) return this.stop(MUTE);
    if (!missing) return this.stop(NO_SOUNDS);
    const strokes = this.#shelf.fetch(score.voices, this.#context).then((more) => this.#notice([...missing, ...more]));
    if (!how().wish.countIn) await strokes;
    if (this.#isOver) return undefined;
    this.#play(score, how());
    strokes.then(() => this.transport.soundsAreHere());
    return undefined;
  }

  #play(score, { wish, tempo }) {
    this.#desk = new Desk(this.#context, this.#shelf, settings);
    this.transport = new Transport(this.#context, this.#desk, { ...score, ...this.#shelf.rules });
    this.#context.addEventListener("statechange", this.#watch);
    this.transport.start(wish, tempo, wish.countIn);
    this.#timer = setInterval(() => this.#tick(), TICK_MS);
    stayAwake(this);
    this.#frame();
  }

  setLevels() {
    this.#desk?.setLevels(settings);
  }

  /** Ends it now; `words` say why, where a reader did not ask for it. */
  stop(words = "") {
    if (this.#isOver) return;
    this.#desk?.hush();
    this.#close(words);
  }

  #tick() {
    this.transport.tick();
    if (this.transport.isOver) this.#close(""); // what rings may ring
  }

  #close(words) {
    this.#isOver = true;
    clearInterval(this.#timer);
    this.#context?.removeEventListener("statechange", this.#watch);
    if (this.#context) restSoon(this.#context);
    maySleep(this);
    this.#reports.over(words, this.transport?.playedSeconds ?? 0);
  }

  #watch = () => {
    if (this.#context.state !== "running") this.stop(INTERRUPTED);
  };

  #frame() {
    if (this.#isOver) return;
    const state = this.transport.beat < 0 ? "counting" : "playing";
    if (state !== this.#state) {
      this.#state = state;
      this.#reports.state(state);
    }
    this.#reports.frame(this.transport);
    requestAnimationFrame(() => this.#frame());
  }

  #notice(missing) {
    if (missing.length) this.#reports.notice(missingWords(missing));
  }
}

function missingWords(places) {
  const names = new Intl.ListFormat(LANGUAGE).format(places.map((place) => say("the {place}", { place: say(place) })));
  return say("The sound of {names} could not be fetched. Everything else plays.", { names });
}
