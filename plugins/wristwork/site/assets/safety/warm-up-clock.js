/** Counts down steps one after another, by the clock and not by counting ticks: a sleeping tab catches up. */

const TICK_MS = 200;

export class StepClock {
  #index = -1;
  #deadline = 0;
  #left = 0;
  #ticker = null;

  /**
   * `seconds` are the lengths of the steps. Called back: `changed(index)` when a step begins,
   * `ticked(left, share)` with whole seconds left and the share of the whole that is done,
   * `held(running)` on pause and going on, `ended()` after the last step.
   */
  constructor(seconds, { changed, ticked, held, ended }) {
    this.seconds = seconds;
    this.total = seconds.reduce((sum, each) => sum + each, 0);
    this.on = { changed, ticked, held, ended };
  }

  start() {
    this.#begin(0, performance.now());
    this.#run();
  }

  stop() {
    clearInterval(this.#ticker);
    this.#ticker = null;
  }

  get running() {
    return this.#ticker !== null;
  }

  /** Pauses, goes on, or begins again after the end. */
  toggle() {
    if (this.#isOver()) this.start();
    else if (this.running) {
      this.#left = this.#deadline - performance.now();
      this.stop();
      this.on.held(false);
    } else {
      this.#deadline = performance.now() + this.#left;
      this.#run();
    }
  }

  /** To the step before (-1) or after (1) this one; a clock that is paused stays so. */
  go(steps) {
    const wanted = this.#index + steps;
    if (wanted < 0) return;
    if (wanted >= this.seconds.length) {
      this.#end();
      return;
    }
    const paused = !this.running && !this.#isOver();
    this.#begin(wanted, performance.now());
    this.#left = this.seconds[wanted] * 1000;
    if (paused) this.#show();
    else this.#run();
  }

  #isOver() {
    return this.#index >= this.seconds.length;
  }

  #begin(index, from) {
    this.#index = index;
    this.#deadline = from + this.seconds[index] * 1000;
    this.on.changed(index);
  }

  #run() {
    clearInterval(this.#ticker);
    this.#ticker = setInterval(() => this.#tick(), TICK_MS);
    this.on.held(true);
    this.#tick();
  }

  #tick() {
    while (!this.#isOver() && performance.now() >= this.#deadline) {
      if (this.#index + 1 === this.seconds.length) this.#end();
      else this.#begin(this.#index + 1, this.#deadline);
    }
    if (!this.#isOver()) this.#show();
  }

  #show() {
    const left = Math.max(0, this.running ? this.#deadline - performance.now() : this.#left) / 1000;
    const before = this.seconds.slice(0, this.#index).reduce((sum, each) => sum + each, 0);
    this.on.ticked(Math.ceil(left), (before + this.seconds[this.#index] - left) / this.total);
  }

  #end() {
    this.stop();
    this.#index = this.seconds.length;
    this.on.ticked(0, 1);
    this.on.ended();
  }
}
