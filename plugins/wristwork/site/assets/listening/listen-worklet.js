/** Runs the finder on the audio thread: strokes go out as messages, on the clock of the context; no sound goes anywhere. */

import { StrokeFinder } from "./stroke-finder.js";

const CONDITION_S = 1;

class Listening extends AudioWorkletProcessor {
  #started = null;
  #told = 0;
  #isOver = false;
  #finder = new StrokeFinder(sampleRate, (stroke) => {
    this.port.postMessage({ stroke: { ...stroke, time: this.#started + stroke.time } });
  });

  constructor() {
    super();
    this.port.onmessage = () => {
      this.#isOver = true;
    };
  }

  process([[samples]]) {
    if (samples) {
      this.#started ??= currentTime;
      this.#finder.hear(samples);
    }
    if (currentTime - this.#told > CONDITION_S) {
      this.#told = currentTime;
      this.port.postMessage({ condition: this.#finder.condition(), hears: Boolean(samples) });
    }
    return !this.#isOver;
  }
}

registerProcessor("wristwork-listening", Listening);
