/**
 * The diagram follows a video: what is struck there was heard when the site was built, so the video itself says how its
 * seconds are beats. However slowly it plays, and wherever somebody goes in it, the mark is where the video is.
 */

import { isSwapped } from "./diagram.js";
import { playerOf } from "./player-list.js";
import { Marker } from "./player-marks.js";
import { advance, beatAt, drawnAt, startRun, struckLast } from "./player-schedule.js";

// A stroke is still seen for so long after the last one.
const LAST_S = 0.4;
// What was struck longer ago is seen no more.
const SEEN_S = 6;

export class FilmBeats {
  #video;
  #figure;
  #marker;
  #beats;
  #score = null;
  #run = null;
  #sounds = [];
  #frame = 0;

  /** @param {HTMLVideoElement} video which carries when a pass begins, beats a minute, and from when to when it is played */
  constructor(video) {
    this.#video = video;
    this.#figure = video.closest(".ww-exercise");
    this.#marker = new Marker(this.#figure.querySelector(".ww-diagram"));
    this.#beats = video.dataset.wwBeats.split(" ").map(Number);
    video.addEventListener("play", () => this.begin());
    video.addEventListener("seeked", () => this.#show());
  }

  /** Takes the mark away. */
  clear() {
    cancelAnimationFrame(this.#frame);
    this.#frame = 0;
    this.#marker.mark([], null);
  }

  /** The video plays: marks what is played until it stops. */
  async begin() {
    this.#score ??= await playerOf(this.#figure)?.wholeScore();
    if (!this.#score || this.#video.paused) return;
    const [zero, tempo, , to] = this.#beats;
    const wish = {
      ...{ hands: "both", click: false, end: Infinity, climb: null },
      ...{ swapHands: isSwapped("hands"), swapFeet: isSwapped("feet") },
    };
    this.#run = startRun(this.#score, zero, tempo, false);
    this.#sounds = advance(this.#score, this.#run, wish, to + LAST_S).sounds;
    cancelAnimationFrame(this.#frame);
    this.#follow();
  }

  #follow = () => {
    this.#show();
    this.#frame = this.#video.paused ? 0 : requestAnimationFrame(this.#follow);
  };

  #show() {
    if (!this.#run) return;
    const now = this.#video.currentTime;
    const [, , from, to] = this.#beats;
    const beat = beatAt(this.#run, now);
    if (now < from || now > to + LAST_S || beat < 0) this.#marker.mark([], null);
    else this.#marker.mark(struckLast(this.#recent(now), now), drawnAt(this.#score, beat));
  }

  #recent(now) {
    return this.#sounds.filter(({ time }) => time <= now && time > now - SEEN_S);
  }
}
