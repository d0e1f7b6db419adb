/**
 * On the music stand: one exercise over the whole screen, to be read from where a drummer sits.
 *
 * Page-turner pedals send arrow or page keys: they go to the lesson's next exercise.
 */

import { say } from "../base/words.js";
import { maySleep, stayAwake } from "../base/awake.js";
import { isTyping, make } from "../base/elements.js";
import { Beats, Pace, PlayButton, playerKey, Words } from "./player-parts.js";
import { makers, playersOnPage } from "./player-list.js";
import { styled } from "./styled.js";

const LARGEST = 4;
const FINEST = 0.05;
// Where all of a diagram can't be seen, the line that is played is, and the next one; on a low screen the one alone.
const LINES_IN_SIGHT = 2;
const LOW_SCREEN = 420;
const TURNS = { ArrowRight: 1, ArrowDown: 1, PageDown: 1, ArrowLeft: -1, ArrowUp: -1, PageUp: -1 };

/** Puts the exercise of a player on the stand. */
export async function openStand(player) {
  await styled("stand.css");
  new Stand().open(player);
}

class Stand {
  #player;
  #parts = [];
  #diagram;
  #room = make("div");
  #cell = null;
  #words = new Words();
  #title = make("h2", { dir: "auto" });
  #where = make("p");
  #sheet = make("div", { class: "ww-stand-sheet", tabindex: 0, role: "region", "aria-label": say("The exercise") });
  #controls = make("div", { class: "ww-stand-controls" });
  #turns = [this.#makeTurn(say("Previous exercise"), "‹", -1), this.#makeTurn(say("Next exercise"), "›", 1)];
  #resized = new ResizeObserver(() => this.#fit());
  #dialog = make(
    "dialog",
    { class: "ww-stand", "aria-label": say("On the music stand"), close: () => this.#closed() },
    make("header", {}, make("div", {}, this.#title, this.#where), this.#makeLeave()),
    this.#sheet,
    make("footer", {}, this.#words.element, this.#turns[0], this.#controls, this.#turns[1]),
  );

  #makeTurn(words, sign, by) {
    const click = () => this.#turn(by);
    return make("button", { type: "button", class: "ww-turn", "aria-label": words, click }, sign);
  }

  #makeLeave() {
    return make("button", { type: "button", class: "ww-leave", click: () => this.#dialog.close() }, say("Leave"));
  }

  open(player) {
    document.body.append(this.#dialog);
    // A phone may have no full screen, and only a press opens one; the dialog fills its window all the same.
    if (navigator.userActivation?.isActive) document.documentElement.requestFullscreen?.().catch(() => {});
    document.addEventListener("fullscreenchange", this.#fullScreenChanged);
    this.#dialog.addEventListener("keydown", (event) => this.#key(event));
    this.#dialog.showModal();
    stayAwake(this);
    // So the way back of a browser or a phone leads to the page, and not away from it.
    history.pushState({ wwStand: true }, "");
    window.addEventListener("popstate", this.#goneBack);
    this.#put(player);
    this.#resized.observe(this.#sheet);
  }

  /** Esc leaves the full screen; that is to leave the stand, too. */
  #fullScreenChanged = () => {
    if (!document.fullscreenElement) this.#dialog.close();
  };

  #goneBack = () => this.#dialog.close();

  #put(player) {
    this.#takeDown();
    this.#player = player;
    const [play, pace, beats] = [new PlayButton(player), new Pace(player), new Beats(player)];
    this.#parts = [play, pace, beats];
    this.#controls.replaceChildren(pace.element, play.element, beats.element);
    this.#title.textContent = player.title;
    this.#diagram = player.figure.querySelector(".ww-diagram");
    this.#room.style.height = `${this.#diagram.offsetHeight}px`;
    this.#diagram.replaceWith(this.#room);
    this.#sheet.replaceChildren(this.#diagram);
    this.#fit();
    this.report("");
    player.attach(this);
    player.load().catch(() => {}); // said when it is to be played
    this.#showTurns();
    play.element.focus();
  }

  /** Gives the figure its diagram back. */
  #takeDown() {
    if (!this.#player) return;
    this.#player.stop();
    this.#player.detach(this);
    this.#room.replaceWith(this.#diagram);
  }

  #showTurns() {
    const all = playersOnPage();
    const at = all.indexOf(this.#player);
    this.#where.textContent = all.length > 1 ? say("{number} of {all}", { number: at + 1, all: all.length }) : "";
    for (const [button, by] of [
      [this.#turns[0], -1],
      [this.#turns[1], 1],
    ]) {
      button.disabled = !all[at + by] && !this.#addressOf(by);
    }
  }

  /** Where the lesson goes on from an exercise's own page. */
  #addressOf(by) {
    const { wwNext, wwBefore } = this.#player.figure.dataset;
    return by > 0 ? wwNext : wwBefore;
  }

  #turn(by) {
    const all = playersOnPage();
    const other = all[all.indexOf(this.#player) + by];
    const address = this.#addressOf(by);
    if (other) this.#put(other);
    else if (address) this.#fetch(new URL(address, document.baseURI));
    else this.report(by > 0 ? say("This is the last exercise of the lesson.") : say("This is the first exercise of the lesson."));
  }

  /** Brings the lesson's next exercise from its own page, so that the screen stays full. */
  async #fetch(address) {
    try {
      const answer = await fetch(address);
      if (!answer.ok) throw new Error(`${answer.url}: ${answer.status}`);
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      const figure = /** @type {HTMLElement} */ (document.adoptNode(page.querySelector("figure.ww-exercise")));
      figure.dataset.wwSrc = address.href;
      for (const name of ["wwNext", "wwBefore"]) {
        if (figure.dataset[name]) figure.dataset[name] = new URL(figure.dataset[name], address).href;
      }
      document.body.append(make("div", { class: "ww-guest", hidden: true }, figure));
      const [player] = makers.mount(figure.parentElement);
      this.#put(player);
    } catch {
      this.report(say("The next exercise can’t be reached without a signal."));
    }
  }

  /** The largest size at which the whole diagram is seen, or at least two of its lines; the rest scrolls. */
  #fit() {
    const { style } = this.#sheet;
    const least = this.#sheet.clientHeight < LOW_SCREEN ? 1 : LINES_IN_SIGHT;
    const fits = (zoom) => {
      style.setProperty("--ww-zoom", zoom);
      if (this.#sheet.scrollWidth > this.#sheet.clientWidth) return false;
      return this.#sheet.scrollHeight <= this.#sheet.clientHeight || this.#lineHeight() * least <= this.#sheet.clientHeight;
    };
    let zoom = LARGEST;
    while (zoom > 1 && !fits(zoom)) zoom -= FINEST;
    if (zoom <= 1) fits(1);
  }

  /** Pixels from the top of a line to that of the next one, or of the only one there is. */
  #lineHeight() {
    const tops = [...this.#diagram.querySelectorAll(".ww-cell")].map((cell) => cell.getBoundingClientRect());
    const below = tops.find(({ top }) => top > tops[0].top + 1);
    return below ? below.top - tops[0].top : tops[0].height;
  }

  #key(event) {
    const by = TURNS[event.key];
    if (!by || isTyping(event.target)) {
      playerKey(event, this.#player);
      return;
    }
    event.preventDefault();
    this.#turn(by);
  }

  #closed() {
    this.#takeDown();
    maySleep(this);
    window.removeEventListener("popstate", this.#goneBack);
    if (history.state?.wwStand) history.back();
    for (const guest of document.querySelectorAll(".ww-guest")) guest.remove();
    this.#resized.disconnect();
    document.removeEventListener("fullscreenchange", this.#fullScreenChanged);
    if (document.fullscreenElement) document.exitFullscreen();
    this.#dialog.remove();
    const { figure } = this.#player;
    const back = figure.isConnected ? figure : document.querySelector(".ww-exercise");
    back.scrollIntoView({ block: "nearest" });
    back.querySelector(".ww-play").focus();
  }

  // What follows makes the stand a view of its player, as the one in the figure is.

  show() {
    this.#dialog.dataset.wwState = this.#player.state;
    for (const part of this.#parts) part.show();
  }

  /** The diagram is marked by its figure's view, which knows it; here it is followed. */
  mark(beat) {
    this.#parts.at(-1).mark(beat);
    const cell = this.#diagram.querySelector(".ww-cursor")?.closest(".ww-cell") ?? null;
    if (cell && cell !== this.#cell) cell.scrollIntoView({ block: "start" });
    this.#cell = cell;
  }

  report(words) {
    this.#words.report(words);
  }

  tell(words) {
    this.#words.tell(words);
  }
}
