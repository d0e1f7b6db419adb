/** The player of one figure: what it is set to, and what it is doing. */

import { say } from "../base/words.js";
import { isSwapped } from "./diagram.js";
import { FASTEST, SLOWEST } from "../base/limits.js";
import { within } from "../base/elements.js";
import { EVERY_BEAT, readClicks } from "./player-clicks.js";
import { readExercise, temposOf } from "./player-data.js";
import { drawnAt, readScore } from "./player-schedule.js";
import { keepSetting, onSetting, settings } from "./player-settings.js";
import { Take } from "./player-take.js";
import { View } from "./player-view.js";

// A slider that is dragged asks for many changes; so often is one carried out.
const CHANGE_MS = 40;

/** How slow and how fast an exercise with these tempos may be played. */
const limitsOf = (start, goal) => ({
  low: Math.max(SLOWEST, Math.floor(start / 4)),
  high: Math.min(FASTEST, goal * 2),
});

export class Player {
  figure;
  exercise = null;
  tempo;
  limits;
  /** Where the exercise starts and where it goes. */
  meant;
  /** `stopped`, `starting` (sounds are on their way), `counting` or `playing`. */
  state = "stopped";
  /** `both`, or the one limb that sounds. */
  hands = "both";
  loop = true;
  /** Where the click sounds: as the exercise says, until a link or the reader says otherwise. */
  clicks = EVERY_BEAT;
  /** What of it is played; null for all of it. @type {import("./player-part.js").Part|null} */
  part = null;
  /**
   * What holds in place of the reader's settings while something else plays by this player. `stretch`: how many times
   * slower ornaments, buzzes and swing are than their tempo makes them, for slow motion.
   *
   * @type {{hands: string, click: boolean, countIn: boolean, stretch: number}|null}
   */
  forNow = null;
  climb = { on: false, from: 60, by: 4, every: 2, top: 100 };

  #shelf;
  #views = [];
  #score = null;
  #heard = null;
  #loading = null;
  #wanted = null;
  #wantedClicks = null;
  #take = null;
  #anchor = null;
  #changing = 0;
  #tempoChanges = false;

  constructor(figure, shelf) {
    this.figure = figure;
    this.#shelf = shelf;
    const [start, goal] = temposOf(figure);
    this.meant = { start, goal };
    this.limits = limitsOf(start, goal);
    this.tempo = start;
    this.attach(new View(this, figure.querySelector(".ww-controls")));
    onSetting(() => this.#settingsChanged());
  }

  get id() {
    return this.figure.dataset.wwId ?? null;
  }

  get title() {
    return this.figure.querySelector(".ww-title")?.textContent ?? say("this example");
  }

  get isPlaying() {
    return this.state !== "stopped";
  }

  /** Beats of a bar. */
  get bar() {
    return this.#score?.bar ?? Number(this.figure.dataset.wwBar ?? 4);
  }

  /** What is to be played, where it is there already. */
  get score() {
    return this.#score;
  }

  /** Beats before the first bar line. */
  get pickup() {
    return this.#score?.pickup ?? 0;
  }

  /** How ornaments and buzzes sound; there once something was fetched. */
  get rules() {
    return this.#shelf.rules;
  }

  /** What of it is played now. */
  get sounding() {
    return this.#heard;
  }

  /** When its first beat sounds, on the clock of the sound; null while nothing plays. */
  get zero() {
    return this.#take?.transport?.zero ?? null;
  }

  /** Fetches what is to be played, once. */
  load() {
    this.#loading ??= this.#load().catch((error) => {
      this.#loading = null;
      throw error;
    });
    return this.#loading;
  }

  async #load() {
    const exercise = await readExercise(this.figure);
    const { start, goal, step } = exercise.tempo;
    this.exercise = exercise;
    this.#score = readScore(exercise);
    this.limits = limitsOf(start, goal);
    this.loop = exercise.loop;
    this.clicks = readClicks(this.#wantedClicks, this.#score.bar) ?? this.ownClicks;
    const top = goal > start ? goal : this.#allowed(start + 5 * step);
    this.climb = { ...this.climb, from: start, by: step, top };
    this.tempo = this.#allowed(this.#wanted ?? start);
    this.#show();
    return this.#score;
  }

  /** The score with the rules by which ornaments and buzzes sound. */
  async wholeScore() {
    const score = await this.load();
    await this.#shelf.fetch([], null);
    return { ...score, ...this.#shelf.rules };
  }

  #allowed(tempo) {
    return within(Math.round(tempo), this.limits.low, this.limits.high);
  }

  /** Sets the tempo, or the nearest that is allowed. */
  setTempo(tempo) {
    this.#wanted = tempo;
    this.#showTempo(this.#allowed(tempo));
    this.#changeSoon({ tempo: true });
  }

  /** Where the exercise itself has the click. */
  get ownClicks() {
    return this.exercise?.click ?? EVERY_BEAT;
  }

  /** Sets the practice click by the code that a link carries; what is none changes nothing. */
  setClicks(code) {
    this.#wantedClicks = code;
    if (this.exercise) this.set("clicks", readClicks(code, this.bar) ?? this.clicks);
  }

  #showTempo(tempo) {
    if (tempo === this.tempo) return;
    this.tempo = tempo;
    this.#show();
    this.#tell(say("{tempo} beats a minute", { tempo }));
    this.#emit("ww-tempo", { tempo });
  }

  /** Sets `hands`, `loop`, `clicks` or `climb`, or one of the settings of all players. */
  set(name, value) {
    if (name in settings) {
      keepSetting(name, value);
      return;
    }
    const starts = name === "climb" && value.on && !(this.climb.on && this.climb.from === value.from);
    this[name] = value;
    if (starts) this.loop = true;
    if (name === "loop" && !value) this.climb = { ...this.climb, on: false };
    this.#show();
    if (starts && this.isPlaying) this.setTempo(value.from);
    else this.#changeSoon({});
  }

  #settingsChanged() {
    this.#show();
    this.#take?.setLevels();
    this.#changeSoon({});
  }

  /** The reader's left-handed switch was turned. */
  handsChanged() {
    this.#show();
    this.#changeSoon({});
  }

  /** Lets the playing follow what is set now. */
  #changeSoon({ tempo = false }) {
    if (!this.#take?.transport) return;
    this.#tempoChanges ||= tempo;
    this.#changing ||= setTimeout(() => {
      const take = this.#take;
      this.#changing = 0;
      take?.transport?.change(this.#wish(), this.#tempoChanges ? this.tempo : null);
      this.#tempoChanges = false;
    }, CHANGE_MS);
  }

  #wish() {
    return {
      hands: this.forNow?.hands ?? this.hands,
      countIn: this.forNow?.countIn ?? settings.countIn,
      swapHands: isSwapped("hands"),
      swapFeet: isSwapped("feet"),
      click: this.forNow?.click ?? settings.click,
      clicks: this.clicks,
      loop: this.part?.loops ?? this.loop,
      climb: this.climb.on && !this.forNow ? this.climb : null,
    };
  }

  /** Plays a part of it, or all; whatever is playing goes over to that. */
  setPart(part) {
    const goesOn = this.isPlaying;
    this.stop();
    this.part = part;
    this.#show();
    this.#tell(part?.words ?? say("The whole"));
    if (goesOn) this.play();
  }

  #arranged(score) {
    this.#heard = this.part ? this.part.arrange(score, this.loop) : score;
    return { ...this.#heard, stretch: this.forNow?.stretch ?? 1 };
  }

  /** Starts to play; to be called from a press of a key, a finger or a mouse. */
  play() {
    if (this.#take) return;
    this.#report("");
    this.#take = new Take(this.#shelf, {
      state: (state) => this.#enter(state),
      frame: (transport) => this.#frame(transport),
      notice: (words) => this.#report(words),
      over: (words, seconds) => this.#over(words, seconds),
    });
    this.#enter("starting");
    if (this.climb.on && !this.forNow) this.setTempo(this.climb.from);
    this.#take.begin(this.load().then((score) => this.#arranged(score)), () => ({ wish: this.#wish(), tempo: this.tempo }));
  }

  /** Stops; `words` tell the reader why, where it was not they who stopped it. */
  stop(words = "") {
    this.#take?.stop(words);
  }

  toggle() {
    if (this.isPlaying) this.stop();
    else this.play();
  }

  /** Shows the player in one more view. */
  attach(view) {
    this.#views.push(view);
    view.show();
  }

  detach(view) {
    this.#views = this.#views.filter((one) => one !== view);
  }

  #mark(beat, strokes, place) {
    for (const view of this.#views) view.mark(beat, strokes, place);
  }

  #show() {
    for (const view of this.#views) view.show();
  }

  #report(words) {
    for (const view of this.#views) view.report(words);
  }

  #tell(words) {
    for (const view of this.#views) view.tell(words);
  }

  #enter(state) {
    this.state = state;
    this.#show();
    if (state === "counting") this.#tell(say("Counting in at {tempo} beats a minute", { tempo: this.tempo }));
    this.#emit("ww-state", { state });
  }

  #frame(transport) {
    if (!this.figure.isConnected) {
      this.stop();
      return;
    }
    const { anchor, beat } = transport;
    if (anchor !== this.#anchor && anchor.climbed) this.#showTempo(anchor.tempo);
    this.#anchor = anchor;
    if (beat < 0) this.#mark(beat, [], null);
    else this.#mark(beat, transport.strokes, drawnAt(this.#heard, beat));
  }

  #over(words, seconds) {
    const wasHeard = this.state === "counting" || this.state === "playing";
    this.#take = null;
    this.#mark(null, [], null);
    this.#report(words);
    this.#enter("stopped");
    if (wasHeard) this.#tell(say("Stopped"));
    if (seconds > 0) this.#emit("ww-played", { seconds, tempo: this.tempo });
  }

  #emit(name, detail) {
    this.figure.dispatchEvent(new CustomEvent(name, { bubbles: true, detail: { id: this.id, ...detail } }));
  }
}
