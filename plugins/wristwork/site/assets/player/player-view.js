/**
 * The player in a figure: one row with play, tempo and the beats of the bar, and everything else behind one key. The row
 * stays at the foot of the screen while the diagram is in sight, and the page follows the line that is played.
 */

import { say } from "../base/words.js";
import { make } from "../base/elements.js";
import { Follower } from "./player-follow.js";
import { Marker } from "./player-marks.js";
import { Beats, fold, Pace, PlayButton, playerKey, Words } from "./player-parts.js";

export class View {
  #player;
  #root;
  #play;
  #pace;
  #beats;
  /** What is behind "More", fetched when it is first wanted. */
  #more = null;
  /** What a touched note offers, fetched with the first touch. */
  #touched = null;
  #part = null;
  #marker;
  #diagram;
  #follower;
  #words = new Words();

  /**
   * @param {import("./player-figure.js").Player} player
   * @param {HTMLElement} controls its room in the figure; the previews in it move behind "More"
   */
  constructor(player, controls) {
    this.#player = player;
    this.#play = new PlayButton(player);
    this.#pace = new Pace(player);
    this.#beats = new Beats(player);
    this.#marker = new Marker(player.figure.querySelector(".ww-diagram"));
    this.#follower = new Follower(player.figure, controls);
    const previews = controls.querySelector(":scope > .ww-audio");
    const [key, panel] = fold("ww-more", say("More"));
    key.addEventListener("click", () => this.#fetchMore(panel, previews), { once: true });
    const parts = [this.#play.element, this.#pace.element, this.#beats.element, key];
    this.#root = make(
      "div",
      { class: "ww-player", role: "group", "aria-label": say("Practice player: {title}", { title: player.title }), tabindex: -1 },
      this.#words.element,
      make("div", { class: "ww-player-row" }, ...parts),
      panel,
    );
    this.#root.addEventListener("keydown", (event) => playerKey(event, player));
    controls.replaceChildren(this.#root);
    this.#diagram = player.figure.querySelector(".ww-diagram");
    this.#diagram.addEventListener("click", (event) => this.#touch(event));
  }

  async #touch(event) {
    if (!event.target.closest(".ww-beat")) return;
    const { Touched } = await import("./player-part.js");
    if (!this.#touched) {
      this.#touched = new Touched(this.#player);
      this.#root.append(this.#touched.element);
    }
    this.#touched.touch(event);
  }

  async #fetchMore(panel, previews) {
    try {
      const { More } = await import("./player-more.js");
      this.#more = new More(this.#player, previews);
      panel.append(...this.#more.elements);
      this.#more.show();
    } catch {
      panel.append(make("p", { role: "alert" }, say("This can’t be reached without a signal. Load the page again when there is one.")));
    }
  }

  /** Shows how the player stands now. */
  show() {
    const { state } = this.#player;
    if (state === "starting" && this.#root.dataset.wwState === "stopped") this.#follower.begin();
    this.#root.dataset.wwState = state;
    for (const part of [this.#play, this.#pace, this.#beats]) part.show();
    this.#more?.show();
    if (this.#player.part !== this.#part) this.#showPart();
  }

  async #showPart() {
    this.#part = this.#player.part;
    const { showPart } = await import("./player-part.js");
    showPart(this.#diagram, this.#part);
    this.#words.report(this.#part ? `${this.#part.words}.` : "");
  }

  /** Shows what is played: the beat, and where in the pattern it is; null for nothing. */
  mark(beat, strokes, place) {
    this.#beats.mark(beat);
    this.#marker.mark(strokes, place);
    if (beat !== null) this.#follower.follow(this.#marker.cellAt(place ?? 0));
  }

  report(words) {
    this.#words.report(words);
  }

  tell(words) {
    this.#words.tell(words);
  }
}
