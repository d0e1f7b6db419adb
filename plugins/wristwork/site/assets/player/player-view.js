/**
 * The player in a figure: play and tempo, the beats of the bar, the volume; the rest is in `Setup`. An example's
 * player is a short one: play and tempo, and everything else behind one key.
 */

import { freshId, make } from "../base/elements.js";
import { Marker } from "./player-marks.js";
import { Beats, fold, Pace, PlayButton, playerKey, Words } from "./player-parts.js";
import { settings } from "./player-settings.js";
import { Setup } from "./player-setup.js";

export class View {
  #player;
  #root;
  #play;
  #pace;
  #beats;
  #words = new Words();
  #setup;
  #slider;
  #ends = make("p", { class: "ww-ends", "aria-hidden": "true" });
  #volume;
  #marker;

  /**
   * @param {import("./player-figure.js").Player} player
   * @param {HTMLElement} controls its room in the figure; the previews in it move to a place of their own
   */
  constructor(player, controls) {
    this.#player = player;
    this.#play = new PlayButton(player);
    this.#pace = new Pace(player);
    this.#beats = new Beats(player);
    this.#setup = new Setup(player);
    this.#marker = new Marker(player.figure.querySelector(".ww-diagram"));
    const isShort = player.figure.matches(".ww-example");
    this.#root = make(
      "div",
      { class: "ww-player", role: "group", "aria-label": `Practice player: ${player.title}`, tabindex: -1 },
      ...(isShort ? this.#shortRows() : this.#rows(previews(controls.children))),
    );
    this.#root.addEventListener("keydown", (event) => playerKey(event, player));
    controls.replaceChildren(this.#root);
  }

  #shortRows() {
    const rest = [this.#makeSlider(), this.#makeSide(), ...this.#setup.elements, this.#makeStandButton()];
    const [key, panel] = fold("ww-setup", "More", ...rest);
    return [
      make("div", { class: "ww-player-short" }, this.#play.element, this.#pace.element, key),
      this.#words.element,
      panel,
    ];
  }

  #rows(furtherFolds) {
    const folds = [fold("ww-setup", "Click, hands, climb", ...this.#setup.elements), ...furtherFolds];
    return [
      make("div", { class: "ww-player-main" }, this.#play.element, this.#pace.element, this.#makeSlider()),
      this.#makeSide(),
      this.#words.element,
      make("div", { class: "ww-player-more" }, ...folds.map(([key]) => key), this.#makeStandButton()),
      ...folds.map(([, panel]) => panel),
    ];
  }

  #makeSide() {
    return make("div", { class: "ww-player-side" }, this.#beats.element, this.#makeVolume());
  }

  #makeSlider() {
    this.#slider = make("input", { type: "range", "aria-label": "Tempo" });
    this.#slider.addEventListener("input", () => this.#player.setTempo(this.#slider.valueAsNumber));
    return make("div", { class: "ww-slide" }, this.#slider, this.#ends);
  }

  #makeVolume() {
    const id = freshId("volume");
    this.#volume = make("input", { type: "range", id, min: 0, max: 100, step: 5 });
    this.#volume.addEventListener("input", () => this.#player.set("volume", this.#volume.valueAsNumber));
    const hearing = this.#player.figure.closest("[data-ww-hearing]")?.dataset.wwHearing;
    const why = hearing ? [make("a", { href: hearing }, "Look after your hearing")] : [];
    return make(
      "div",
      { class: "ww-volume" },
      make("div", { class: "ww-level" }, make("label", { for: id }, "Volume"), this.#volume),
      make("p", {}, "Keep it as low as works. ", ...why),
    );
  }

  #makeStandButton() {
    const open = async () => (await import("./stand.js")).openStand(this.#player);
    return make("button", { type: "button", class: "ww-to-stand", click: open }, "On the music stand");
  }

  /** Shows how the player stands now. */
  show() {
    const { tempo, limits, state, exercise } = this.#player;
    this.#root.dataset.wwState = state;
    for (const part of [this.#play, this.#pace, this.#beats, this.#setup]) part.show();
    [this.#slider.min, this.#slider.max] = [limits.low, limits.high];
    this.#slider.value = tempo;
    this.#slider.setAttribute("aria-valuetext", `${tempo} beats a minute`);
    if (exercise) this.#showEnds(exercise.tempo, limits);
    this.#volume.value = settings.volume;
    this.#volume.setAttribute("aria-valuetext", `${settings.volume} percent`);
  }

  /** Marks on the slider where the exercise starts and where it goes. */
  #showEnds({ start, goal }, { low, high }) {
    const share = (tempo) => (tempo - low) / (high - low);
    this.#root.style.setProperty("--ww-start", share(start));
    this.#root.style.setProperty("--ww-goal", share(goal));
    this.#ends.textContent = start === goal ? `meant for ${start}` : `from ${start} to ${goal}`;
  }

  /** Shows what is played: the beat, and where in the pattern it is; null for nothing. */
  mark(beat, strokes, place) {
    this.#beats.mark(beat);
    this.#marker.mark(strokes, place);
  }

  say(words) {
    this.#words.say(words);
  }

  tell(words) {
    this.#words.tell(words);
  }
}

function previews(elements) {
  const found = [...elements];
  if (!found.some((element) => element.matches("audio, :has(audio)"))) return [];
  return [fold("ww-previews", "Previews", ...found)];
}
