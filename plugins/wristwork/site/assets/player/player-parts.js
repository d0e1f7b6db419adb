/**
 * Parts that the player on a page and the one on the music stand share. Each has an `element`, and shows how
 * its player stands when it is told to.
 */

import { say } from "../base/words.js";
import { freshId, isTyping, make, numberField, showNumber } from "../base/elements.js";

// Several changes in quick succession are told as one.
const TELL_MS = 600;
// A key that is held goes on by itself: after this long, and then so often.
const HOLD_MS = 400;
const AGAIN_MS = 90;

export class PlayButton {
  #player;

  constructor(player) {
    this.#player = player;
    this.element = make(
      "button",
      { type: "button", class: "ww-play", click: () => this.#player.toggle() },
      make("span", { class: "ww-play-head", "aria-hidden": "true" }),
    );
  }

  show() {
    const { title } = this.#player;
    this.element.classList.toggle("ww-on", this.#player.isPlaying);
    this.element.setAttribute("aria-label", this.#player.isPlaying ? say("Stop {title}", { title }) : say("Play {title}", { title }));
  }
}

/** The tempo as a number to type, between a key for slower and one for faster. */
export class Pace {
  #player;
  #field;

  constructor(player) {
    this.#player = player;
    const { low: min, high: max } = player.limits;
    this.#field = numberField(say("Tempo, beats a minute"), { min, max, set: (tempo) => player.setTempo(tempo) });
    this.element = make(
      "div",
      { class: "ww-pace" },
      this.#step(say("Slower by {step}", { step: 1 }), "−", -1),
      make("div", { class: "ww-pace-number" }, this.#field, make("span", { "aria-hidden": "true" }, say("beats a minute"))),
      this.#step(say("Faster by {step}", { step: 1 }), "+", 1),
    );
  }

  #step(label, sign, by) {
    const change = () => this.#player.setTempo(this.#player.tempo + by);
    // The arrow keys in the field do the same: one stop less on the way through a page by keyboard.
    return heldKey({ class: "ww-pace-key", "aria-label": label, tabindex: -1 }, change, sign);
  }

  show() {
    const { limits, tempo } = this.#player;
    [this.#field.min, this.#field.max] = [limits.low, limits.high];
    showNumber(this.#field, tempo);
  }
}

/** A key that does something once when it is pressed, and again and again while a finger or the mouse holds it. */
export function heldKey(attributes, act, words) {
  let waiting = 0;
  let hasRun = false;
  const run = () => {
    hasRun = true;
    act();
    waiting = setTimeout(run, AGAIN_MS);
  };
  const press = () => {
    hasRun = false;
    waiting = setTimeout(run, HOLD_MS);
  };
  const leave = () => clearTimeout(waiting);
  // Letting go is a click, too: it has been carried out already where the key was held.
  const click = () => {
    if (!hasRun) act();
    hasRun = false;
  };
  const held = { pointerdown: press, pointerup: leave, pointerleave: leave, pointercancel: leave, click };
  return make("button", { type: "button", ...attributes, ...held }, words);
}

/** The beats of a bar, with the one that is played. */
export class Beats {
  #player;
  #now = null;
  element = make("p", { class: "ww-lights", "aria-hidden": "true" });

  constructor(player) {
    this.#player = player;
  }

  show() {
    const { bar } = this.#player;
    if (this.element.children.length === bar) return;
    this.element.replaceChildren(...Array.from({ length: bar }, (_, index) => make("span", {}, `${index + 1}`)));
  }

  /** Marks the beat that is played; null where none is. */
  mark(beat) {
    const { bar, pickup } = this.#player;
    const now = beat === null ? null : (((Math.floor(beat) - pickup) % bar) + bar) % bar;
    if (now === this.#now) return;
    this.element.children[this.#now]?.classList.remove("ww-now");
    this.element.children[now]?.classList.add("ww-now");
    this.#now = now;
  }
}

/** What is said to everyone, and what is told only to those who listen to the page. */
export class Words {
  #said = make("p", { class: "ww-say", role: "status" });
  #told = make("p", { class: "ww-unseen", "aria-live": "polite" });
  #telling = 0;

  constructor() {
    this.element = make("div", { class: "ww-player-words" }, this.#said, this.#told);
  }

  report(words) {
    this.#said.textContent = words;
  }

  tell(words) {
    clearTimeout(this.#telling);
    this.#telling = setTimeout(() => {
      this.#told.textContent = words;
    }, TELL_MS);
  }
}

/** A key that unfolds some content, and the content. */
export function fold(name, words, ...content) {
  const panel = make("div", { class: `ww-fold ${name}`, id: freshId("fold"), hidden: true }, ...content);
  const key = make("button", { type: "button", "aria-expanded": "false", "aria-controls": panel.id }, words);
  const open = (isOpen) => {
    panel.hidden = !isOpen;
    key.setAttribute("aria-expanded", String(isOpen));
  };
  key.addEventListener("click", () => open(panel.hidden));
  panel.addEventListener("keydown", ({ key: pressed }) => {
    if (pressed !== "Escape") return;
    open(false);
    key.focus();
  });
  return [key, panel];
}

/** Space plays and stops, + and - change the tempo; never while a reader types, or where a key has its own use. */
export function playerKey(event, player) {
  const { target, key } = event;
  if (event.ctrlKey || event.metaKey || event.altKey || isTyping(target)) return;
  if (key === " " && !target.closest("button, a, audio, input:not([type=range])")) player.toggle();
  else if (key === "+" || key === "=") player.setTempo(player.tempo + 1);
  else if (key === "-") player.setTempo(player.tempo - 1);
  else return;
  event.preventDefault();
}
