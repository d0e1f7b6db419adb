/**
 * Listen to me: the player keeps time, the reader plays, and after every few passes hears one thing to change or to keep.
 * What was heard stays on the page; only a few numbers of it go into the log, if the reader wants that.
 */

import { QUARTERS, say } from "../base/words.js";
import { advise, cannotJudge, NOT_THIS, numbersOf } from "../listening/advice.js";
import { Deaf, openMicrophone } from "../listening/ear.js";
import { fitHeard, median } from "../listening/heard-fit.js";
import { CLEAN, judge } from "../listening/judgement.js";
import { checkBox, freshId, make } from "../base/elements.js";
import { isSwapped } from "./diagram.js";
import { askedFor, passSeconds } from "./listen-asked.js";
import { Dots } from "./listen-dots.js";
import { audioContext, wake } from "./player-audio.js";
import { styled } from "./styled.js";

// A turn is as many passes as it takes to judge them.
const LEAST_TURN_S = 12;
// So much later the last stroke of a turn has been heard, whatever the device takes.
const SETTLED_S = 0.5;
// While it plays the dots follow so often.
const LOOK_MS = 800;
const FEWEST_STROKES = 6;
// A turn that was broken off counts from half of it on.
const ENOUGH = 0.5;
const TURNS_SHOWN = 6;
const QUIET_PRIVACY =
  say("It listens on this device alone: nothing is recorded, kept or sent, and it stops when this page is out of sight.");
const CLICK = say("Let the click sound while I play (best with headphones)");
const SEEN = say("After the count-in the click is only seen: the lights below keep time, and you hear yourself.");
const HEARD = say("The click sounds. Its pitch is left out of what is listened to, so it is not taken for a stroke.");
const CLEAN_MEANS =
  say("Clean means here: {heard} of 100 strokes heard, the tempo kept within {drift} in 100, strokes within {spread} ms of a steady beat, accents at least {accents} dB over the taps.", {
    heard: 100 - 100 * CLEAN.missedShare,
    drift: 100 * CLEAN.drift,
    spread: CLEAN.spreadMs,
    accents: CLEAN.accentsDb,
  });
const canReachPads = () => typeof (/** @type {any} */ (navigator).requestMIDIAccess) === "function";
const LEVELS_ITSELF = say("This device evens loudness out by itself: trust what is said of time, and not what is said of loud and soft.");
const opened = new WeakMap();

/** Opens it in the player's figure, or goes to it. */
export async function openListening(player) {
  await styled("listen.css");
  if (!opened.has(player)) opened.set(player, new Listening(player, () => opened.delete(player)));
  opened.get(player).begin();
}

class Listening {
  #player;
  #closed;
  #dots;
  #ear = null;
  #isOpening = false;
  #tempo = 0;
  #turn = null;
  #turns = 0;
  #strokes = [];
  #offset = null;
  #condition = { clipped: 0, hears: true };
  #isMidi = false;
  #looked = 0;
  #go = make("button", { type: "button", class: "ww-listen-go", click: () => this.#toggle() });
  #source = make("select", { id: freshId("ear") });
  #click = checkBox(CLICK, () => this.#showClick());
  #clickWords = make("p");
  #on = make("p", { class: "ww-listen-on", role: "status" });
  #said = make("p", { class: "ww-listen-said", "aria-live": "polite" });
  #number = make("p", { class: "ww-listen-number" });
  #numbers = make("table");
  #behind = make("details", { class: "ww-disclosure", hidden: true }, make("summary", {}, say("The numbers")), this.#numbers, make("p", {}, CLEAN_MEANS));
  #passes = make("ol", { class: "ww-listen-turns", "aria-label": say("So far") });
  #element;

  constructor(player, closed) {
    this.#player = player;
    this.#closed = closed;
    this.#dots = new Dots(player.figure.querySelector(".ww-diagram"));
    const close = make("button", { type: "button", click: () => this.#close() }, say("Close"));
    this.#element = make(
      "section",
      { class: "ww-listen", "aria-label": say("Listen to me: {title}", { title: player.title }), tabindex: -1 },
      make("p", { class: "ww-listen-private" }, QUIET_PRIVACY),
      this.#choices(),
      make("div", { class: "ww-listen-keys" }, this.#go, close),
      this.#on,
      this.#said,
      this.#number,
      this.#passes,
      this.#behind,
    );
    this.#showClick();
    this.#showState();
  }

  #choices() {
    this.#source.append(make("option", { value: "microphone" }, say("Microphone")));
    if (canReachPads()) this.#source.append(make("option", { value: "pads" }, say("Electronic pad (MIDI)")));
    const source = make("p", { hidden: !canReachPads() }, make("label", { for: this.#source.id }, `${say("Listen by")} `), this.#source);
    return make("div", { class: "ww-listen-choices" }, source, this.#click.element, this.#clickWords);
  }

  #showClick() {
    this.#clickWords.textContent = this.#click.box.checked ? HEARD : SEEN;
  }

  begin() {
    const diagram = this.#player.figure.querySelector(".ww-diagram");
    if (!this.#element.isConnected) {
      diagram.after(this.#element);
      this.#player.attach(this);
    }
    // What it was opened from would lie over it.
    this.#player.figure.querySelector('.ww-player [aria-expanded="true"]')?.click();
    this.#element.focus({ preventScroll: true });
    this.#element.scrollIntoView({ block: "nearest" });
  }

  #toggle() {
    if (this.#ear) this.#player.stop();
    else if (!this.#isOpening) this.#start();
  }

  async #start() {
    this.#player.stop();
    this.#isOpening = true;
    this.#report("");
    this.#clear();
    const context = audioContext();
    const waking = context && wake(context);
    const hearer = {
      stroke: (stroke) => this.#strokes.push(stroke),
      condition: ({ clipped, hears }) => {
        this.#condition = { clipped: Math.max(clipped, this.#condition.clipped), hears };
      },
    };
    this.#isMidi = this.#source.value === "pads";
    try {
      if (!context) throw new Deaf(say("This browser cannot play sounds from a page like this one."));
      await this.#player.wholeScore();
      const open = this.#isMidi ? (await import("../listening/pads.js")).openPads : openMicrophone;
      this.#ear = await open(context, hearer);
      if (!(await waking)) throw new Deaf(say("The sound could not start. Press Start listening again."));
    } catch (error) {
      this.#isOpening = false;
      this.#stopHearing();
      this.#report(error.words ?? say("The exercise could not be fetched. Check the connection, then start again."));
      return;
    }
    this.#isOpening = false;
    if (!this.#element.isConnected || document.hidden) {
      this.#stopHearing();
      return;
    }
    this.#player.forNow = { hands: "none", click: this.#click.box.checked, countIn: true, stretch: 1 };
    this.#tempo = this.#player.tempo;
    this.#player.play();
    if (this.#ear.levelsItself) this.#report(LEVELS_ITSELF);
    this.#showState();
  }

  #clear() {
    this.#strokes = [];
    this.#turn = null;
    this.#turns = 0;
    this.#offset = null;
    this.#condition = { clipped: 0, hears: true };
    this.#number.textContent = "";
    this.#behind.hidden = true;
    this.#passes.replaceChildren();
    this.#dots.clear();
  }

  #stopHearing() {
    this.#ear?.close();
    this.#ear = null;
    this.#player.forNow = null;
    this.#showState();
  }

  #showState() {
    this.#go.textContent = this.#ear ? say("Stop listening") : say("Start listening");
    this.#element.classList.toggle("ww-is-on", this.#ear !== null);
    this.#on.textContent = this.#ear ? say("Listening. Play after the count-in. Nothing is kept or sent.") : "";
    for (const field of [this.#source, this.#click.box]) field.disabled = this.#ear !== null;
  }

  #report(words) {
    this.#said.textContent = words;
  }

  /** What is asked in a turn, and where the first one begins on the clock of the sound. */
  #makeTurn(zero) {
    const score = { ...this.#player.sounding, ...this.#player.rules };
    const sides = { swapHands: isSwapped("hands"), swapFeet: isSwapped("feet") };
    const isLoop = this.#player.part?.loops ?? this.#player.loop;
    const passes = isLoop ? Math.ceil(LEAST_TURN_S / passSeconds(score, this.#tempo) - 0.01) : 1;
    return { ...askedFor(score, this.#tempo, passes, sides), zero };
  }

  /** What is asked in the turn of this number, on the clock of the sound. */
  #askedIn(number) {
    const { strokes, seconds, zero } = this.#turn;
    const start = zero + number * seconds;
    return strokes.map((stroke) => ({ ...stroke, time: stroke.time + start }));
  }

  /** Strokes that belong to what is asked: from half a gap before the first to half a gap after the last. */
  #heardFor(asked, offset) {
    const { seconds } = this.#turn;
    const gap = Math.max(0.1, asked[0].time + seconds - asked.at(-1).time) / 2;
    const from = asked[0].time + (offset ?? 0.06) - (offset === null ? Math.max(gap, 0.25) : gap);
    const to = asked.at(-1).time + (offset ?? 0.06) + (offset === null ? Math.max(gap, 0.4) : gap);
    return this.#strokes.filter(({ time }) => time >= from && time < to);
  }

  #look(beat) {
    this.#turn ??= this.#player.zero === null ? null : this.#makeTurn(this.#player.zero);
    if (!this.#turn || beat < 0) return;
    const now = audioContext().currentTime;
    const { zero, seconds } = this.#turn;
    if (now > zero + (this.#turns + 1) * seconds + SETTLED_S) this.#endTurn();
    else if (performance.now() - this.#looked > LOOK_MS) this.#showSoFar(now);
  }

  /** The dots of the turn that is being played. */
  #showSoFar(now) {
    this.#looked = performance.now();
    if (matchMedia("(prefers-reduced-motion: reduce)").matches) return;
    const asked = this.#askedIn(this.#turns).filter(({ time }) => time < now - SETTLED_S);
    if (asked.length < FEWEST_STROKES) return;
    const heard = this.#heardFor(asked, this.#offset);
    if (heard.length < FEWEST_STROKES) return;
    const fit = fitHeard(asked, heard, this.#offset);
    const judgement = fit && judge(asked, heard, fit);
    if (judgement) this.#showDots(asked, judgement.marks, fit.missed);
  }

  #showDots(asked, marks, missed) {
    // Of passes that lie over one another each note shows the last.
    const last = new Map(marks.map((mark) => [`${asked[mark.of].key} ${asked[mark.of].limb}`, mark]));
    const heard = [...last.values()].map((mark) => ({ ...mark, key: asked[mark.of].key, limb: asked[mark.of].limb }));
    const places = new Set(last.keys());
    const gone = missed.map((at) => asked[at]).filter(({ key, limb, isOptional }) => !isOptional && !places.has(`${key} ${limb}`));
    this.#dots.show(heard, gone);
  }

  #endTurn(played = null) {
    const whole = this.#askedIn(this.#turns);
    const asked = played === null ? whole : whole.filter(({ time }) => time < played - SETTLED_S);
    this.#turns += 1;
    const first = this.#heardFor(asked, this.#offset);
    const why = cannotJudge({ strokes: first, asked: asked.length, isMidi: this.#isMidi, ...this.#condition });
    this.#condition = { ...this.#condition, clipped: 0 };
    if (why) {
      this.#tellTurn(why, "", null);
      return;
    }
    const { fit, heard } = this.#fitted(asked, first);
    const judgement = fit && judge(asked, heard, fit);
    if (!judgement) {
      this.#tellTurn(NOT_THIS, "", null);
      return;
    }
    const late = fit.pairs.map(([of, at]) => heard[at].time - asked[of].time);
    this.#offset = median(late.slice(-Math.ceil(late.length / 2)));
    this.#showDots(asked, judgement.marks, fit.missed);
    const { words, number } = advise(judgement, (key) => countOf(key, this.#player.bar));
    this.#tellTurn(words, number, judgement);
    this.#strokes = this.#strokes.filter(({ time }) => time > asked.at(-1).time - 1);
  }

  /** A first fit tells where the player is; then what belongs to the next turn is left out. */
  #fitted(asked, first) {
    const fit = fitHeard(asked, first, this.#offset);
    if (this.#offset !== null || !fit || fit.pairs.length === 0) return { fit, heard: first };
    const offset = median(fit.pairs.map(([of, at]) => first[at].time - asked[of].time));
    const heard = this.#heardFor(asked, offset);
    return { fit: fitHeard(asked, heard, fit.offset), heard };
  }

  #tellTurn(words, number, judgement) {
    this.#report(words);
    this.#number.textContent = number && `${capital(number)}.`;
    this.#behind.hidden = judgement === null;
    if (!judgement) return;
    const rows = numbersOf(judgement);
    this.#numbers.replaceChildren(
      ...rows.map(([name, value]) => make("tr", {}, make("th", { scope: "row" }, name), make("td", {}, value))),
    );
    const facts = [say("within {spread} ms", { spread: Math.round(judgement.spread) })];
    if (judgement.accents !== null) facts.push(say("accents {accents} dB", { accents: Math.round(judgement.accents) }));
    if (judgement.isClean) facts.push(say("clean"));
    this.#passes.append(make("li", { value: this.#turns }, facts.join(", ")));
    while (this.#passes.children.length > TURNS_SHOWN) this.#passes.firstChild.remove();
    this.#emit(judgement);
  }

  #emit({ spread, accents, louder, isClean }) {
    const detail = {
      id: this.#player.id,
      tempo: this.#tempo,
      spread: Math.round(spread),
      accents: accents === null ? null : Math.round(accents),
      louder: louder === null ? null : Math.round(louder.by),
      isClean,
    };
    this.#player.figure.dispatchEvent(new CustomEvent("ww-listened", { bubbles: true, detail }));
  }

  #close() {
    this.#player.stop();
    this.#stopHearing();
    this.#dots.clear();
    this.#player.detach(this);
    this.#element.remove();
    this.#closed();
    this.#player.figure.querySelector(".ww-play")?.focus();
  }

  // What follows makes it a view of its player, as the one in the figure is.

  show() {
    if (!this.#ear) return;
    if (this.#player.isPlaying && this.#player.tempo !== this.#tempo) {
      this.#player.stop(say("The tempo was changed. Start listening again."));
    } else if (!this.#player.isPlaying) {
      this.#finish();
    }
  }

  /** The playing is over: what was played of the last turn may still be judged. */
  #finish() {
    const now = audioContext().currentTime;
    if (this.#turn) {
      const gone = now - (this.#turn.zero + this.#turns * this.#turn.seconds);
      if (gone > ENOUGH * this.#turn.seconds && gone > SETTLED_S * 2) this.#endTurn(now);
    }
    this.#stopHearing();
  }

  mark(beat) {
    if (beat !== null && this.#ear) this.#look(beat);
  }

  report() {}

  tell() {}
}

const capital = (words) => words[0].toUpperCase() + words.slice(1);

const [FIRST, HALF, LAST] = QUARTERS.map((word) => ` ${word}`);
const PARTS = { "0/1": "", "1/4": FIRST, "1/2": HALF, "3/4": LAST, "1/3": say(", its second third"), "2/3": say(", its last third") };

/** How the place of a stroke is counted: beat of the bar, and which part of it; nothing where that has no plain word. */
export function countOf(key, bar) {
  const [above, below] = key.split("/").map(Number);
  const part = PARTS[`${above % below}/${above % below === 0 ? 1 : below}`];
  return part === undefined ? "" : `${(Math.floor(above / below) % bar) + 1}${part}`;
}
