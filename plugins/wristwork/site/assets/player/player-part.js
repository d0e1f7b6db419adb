/**
 * A part of an exercise: a bar or some bars over and over, or all of it from a beat on. A touched note offers both; behind
 * "More" the bars can be chosen without pointing at anything.
 */

import { say, sayAround } from "../base/words.js";
import { make } from "../base/elements.js";
import { arranged, drawnBetween, playedAt } from "./player-arrange.js";

/**
 * What is played of an exercise: `bars` as a link carries them (empty where it is a start and no part), `words` for the
 * reader, the pieces of a score, and from where to where it is drawn.
 *
 * @typedef {{bars: string, words: string, loops: boolean|null, arrange: (score: any, isLoop: boolean) => any, drawn: [number, number]}} Part
 */

/** The whole bars from one number to another; null where there are none such. */
export function barsOf(score, first, last) {
  const start = barStart(score, first);
  const end = Math.min(barStart(score, last + 1), score.written);
  if (!(first >= 1 && last >= first && start < score.written)) return null;
  const words = first === last ? say("Only bar {first}", { first }) : say("Only bars {first} to {last}", { first, last });
  return {
    ...{ bars: first === last ? `${first}` : `${first}-${last}`, words, loops: true },
    arrange: (whole) => arranged(whole, [[start, end]]),
    drawn: spanOf(score.passages, start, end),
  };
}

/** All of it, begun at a beat. */
function fromBeat(score, beat) {
  const pieces = beat === 0 ? [[0, score.written]] : [[beat, score.written], [0, beat]];
  return {
    ...{ bars: "", words: say("From {place}", { place: placeWords(score, beat) }), loops: null },
    arrange: (whole, isLoop) => arranged(whole, isLoop ? pieces : pieces.slice(0, 1)),
    drawn: spanOf(score.passages, beat, beat + 1),
  };
}

const barStart = (score, number) => Math.max(0, (number - 1) * score.bar + score.pickup);
const barAt = (score, beat) => Math.floor((beat - score.pickup) / score.bar) + 1;
const countBars = (score) => Math.max(1, Math.ceil((score.written - score.pickup) / score.bar));

function placeWords(score, beat) {
  const bar = barAt(score, beat);
  const inBar = (((beat - score.pickup) % score.bar) + score.bar) % score.bar;
  return bar < 1 ? say("the pick-up") : say("beat {beat} of bar {bar}", { beat: inBar + 1, bar });
}

/** From where to where a stretch that is played is drawn. */
function spanOf(passages, from, to) {
  const ends = drawnBetween(passages, from, to);
  return [Math.min(...ends.map(([low]) => low)), Math.max(...ends.map(([, high]) => high))];
}

/** Shows in the diagram what of it is played. */
export function showPart(diagram, part) {
  diagram.classList.toggle("ww-has-part", part !== null && part.bars !== "");
  for (const svg of diagram.querySelectorAll(".ww-beat")) {
    const isIn = part !== null && beatOf(svg.dataset.to) > part.drawn[0] && beatOf(svg.dataset.from) < part.drawn[1];
    svg.closest(".ww-cell").classList.toggle("ww-in-part", isIn);
  }
}

const beatOf = (text) => text.split("/").reduce((above, below) => above / below);

/** The beat of the drawing under a touch, or null. */
function touchedBeat(event) {
  const svg = event.target.closest?.(".ww-beat");
  if (!svg) return null;
  const { left, width } = svg.getBoundingClientRect();
  const across = ((event.clientX - left) / width) * svg.width.baseVal.value;
  const place = beatOf(svg.dataset.from) + (across - Number(svg.dataset.wwStart)) / Number(svg.dataset.wwPace);
  // A finger falls a little before the note as easily as after it.
  const beat = Math.floor(place + 0.2);
  return Math.min(Math.max(beat, beatOf(svg.dataset.from)), Math.ceil(beatOf(svg.dataset.to)) - 1);
}

/** What a touched note offers, below the player's row. */
export class Touched {
  #player;
  #first = null;
  #words = make("p", { role: "status" });
  #keys = make("div", { class: "ww-keys" });
  element = make("div", { class: "ww-touched", role: "group", "aria-label": say("From the touched note"), hidden: true }, this.#words, this.#keys);

  constructor(player) {
    this.#player = player;
  }

  async touch(event) {
    const score = await this.#player.load().catch(() => null);
    const drawn = score && touchedBeat(event);
    const beat = drawn === null ? null : playedAt(score.passages, drawn);
    if (beat === null || beat >= score.written) return;
    if (this.#first === null) this.#offer(score, beat);
    else this.#close(score, this.#first, barAt(score, beat));
  }

  #offer(score, beat) {
    const bar = Math.max(1, barAt(score, beat));
    this.element.hidden = false;
    this.#words.textContent = say("From {place}:", { place: placeWords(score, beat) });
    const key = (words, click) => make("button", { type: "button", click }, words);
    this.#keys.replaceChildren(
      key(say("Play"), () => this.#set(fromBeat(score, beat), true)),
      key(say("Loop bar {bar}", { bar }), () => this.#set(barsOf(score, bar, bar))),
      ...(countBars(score) > 1 ? [key(say("Loop to …"), () => this.#ask(bar))] : []),
      key(say("The whole"), () => this.#set(null)),
    );
  }

  #ask(bar) {
    this.#first = bar;
    this.#words.textContent = say("From bar {bar} to the bar that you touch next.", { bar });
    this.#keys.replaceChildren(make("button", { type: "button", click: () => this.#set(null) }, say("The whole")));
  }

  #close(score, first, last) {
    this.#set(barsOf(score, Math.min(first, last), Math.max(first, last)));
  }

  #set(part, isPlayed = false) {
    this.#first = null;
    this.element.hidden = true;
    this.#player.setPart(part);
    if (isPlayed && !this.#player.isPlaying) this.#player.play();
  }
}

/** Behind "More": which bars are played. */
export class Bars {
  #player;
  #first = make("select", { "aria-label": say("From bar"), change: () => this.#choose() });
  #last = make("select", { "aria-label": say("To bar"), change: () => this.#choose() });
  #whole = make("button", { type: "button", click: () => this.#player.setPart(null) }, say("The whole"));
  element = make("div", { class: "ww-clicks ww-bars", role: "group", "aria-label": say("A part of it") }, ...sayAround("Bars {first} to {last}", { first: this.#first, last: this.#last }), this.#whole);

  constructor(player) {
    this.#player = player;
  }

  #choose() {
    const [first, last] = [this.#first, this.#last].map(({ value }) => Number(value));
    this.#player.setPart(barsOf(this.#player.score, first, Math.max(first, last)));
  }

  show() {
    const { score, part } = this.#player;
    const count = score ? countBars(score) : 1;
    this.element.hidden = count < 2;
    if (this.#first.options.length !== count) {
      for (const list of [this.#first, this.#last]) {
        list.replaceChildren(...Array.from({ length: count }, (_, index) => make("option", { value: index + 1 }, `${index + 1}`)));
      }
    }
    const [first, last = first] = part?.bars ? part.bars.split("-") : ["1", `${count}`];
    [this.#first.value, this.#last.value] = [first, last];
    this.#whole.disabled = part === null;
  }
}

/** Sets the bars that a link names, as in `2` or `2-3`; what is none changes nothing. */
export async function openBars(player, code) {
  const [, first, last = first] = /^(\d{1,3})(?:-(\d{1,3}))?$/.exec(code) ?? [];
  const score = await player.load().catch(() => null);
  const part = score && first && barsOf(score, Number(first), Number(last));
  if (part) player.setPart(part);
}
