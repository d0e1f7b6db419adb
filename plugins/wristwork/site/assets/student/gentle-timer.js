/** A timer that counts down in silence and says in words when it is over. */

import { clockFace, say } from "../base/words.js";
import { button } from "../base/copying.js";
import { make } from "../base/elements.js";

const TICK_MS = 250;

export class GentleTimer {
  #left;
  #end = 0;
  #ticking = 0;
  #face = make("span", { class: "ww-gentle-timer-face", role: "timer" });
  #key;
  #said = make("span", { role: "status" });
  element;

  constructor(seconds) {
    this.#left = seconds * 1000;
    this.#key = button(say("Start the clock"), () => (this.#ticking ? this.stop() : this.start()));
    this.element = make("p", { class: "ww-gentle-timer" }, this.#face, this.#key, this.#said);
    this.#show();
  }

  get isOver() {
    return this.#left <= 0;
  }

  start() {
    if (this.#ticking || this.isOver) return;
    this.#end = performance.now() + this.#left;
    this.#ticking = setInterval(() => this.#tick(), TICK_MS);
    this.#show();
  }

  stop() {
    if (!this.#ticking) return;
    clearInterval(this.#ticking);
    this.#ticking = 0;
    this.#show();
  }

  #tick() {
    this.#left = Math.max(0, this.#end - performance.now());
    if (this.isOver) {
      this.stop();
      this.#said.textContent = say("Time. Finish in peace, then go on.");
    }
    this.#show();
  }

  #show() {
    this.#face.textContent = clockFace(Math.ceil(this.#left / 1000));
    this.#key.textContent = this.#ticking ? say("Pause the clock") : say("Start the clock");
    this.#key.hidden = this.isOver;
  }
}
