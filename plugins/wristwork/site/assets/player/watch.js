/**
 * Watch the hands: forearm, hand and stick from the side, as they move through the exercise that is played; in slow motion
 * with its sound, or stroke by stroke without it. Where they are is worked out for the moment that is heard.
 */

import { say } from "../base/words.js";
import { freshId, isTyping, make } from "../base/elements.js";
import { isSwapped } from "./diagram.js";
import { HandPicture } from "./hand-picture.js";
import { HandsAbove, travels } from "./hands-above.js";
import { HANDS, roundOf } from "./hand-strokes.js";
import { styled } from "./styled.js";

// Slow motion: a second of playing takes four. A player goes no slower than it is allowed to.
const SLOW = 4;
// A step ends this share of the way to the next stroke of either hand, but no later than a lift takes.
const STEP_SHARE = 0.7;
const LIFT_S = 0.3;
const SAYS = {
  full: say("full stroke, starts high, ends high"),
  down: say("down stroke, starts high, ends low"),
  tap: say("tap stroke, starts low, ends low"),
  up: say("up stroke, starts low, ends high"),
};
const SHOWN = { both: say("Both"), "right hand": say("Right hand"), "left hand": say("Left hand") };
const MANNERS = { wrist: say("From the wrist"), whip: say("Whipped") };
// Before a first playing the hands wait as long before its first stroke.
const WAITING_S = 0.5;
const opened = new WeakMap();

/** Opens the hands in the player's figure, or goes to them. */
export async function openWatch(player) {
  await styled("watch.css");
  if (!opened.has(player)) opened.set(player, new Watch(player, () => opened.delete(player)));
  await opened.get(player).begin();
}

class Watch {
  #player;
  #closed;
  #round = null;
  #made = "";
  #score = null;
  #manner = "wrist";
  #shown = "both";
  /** Seconds in the round at which the hands stand while nothing is heard, and the number of the stroke stepped to. */
  #at = 0;
  #step = -1;
  #running = 0;
  /** The tempo whose motion is shown slowly; null at any other time. @type {number|null} */
  #slowed = null;
  #isSlowing = false;
  #pictures = Object.fromEntries(HANDS.map((hand) => [hand, new HandPicture(hand)]));
  #above = new HandsAbove();
  #told = make("p", { class: "ww-watch-told", "aria-live": "polite" });
  #slow = this.#key(say("Slow motion"), () => this.#toggleSlow());
  #lifted = make("select", { change: ({ target }) => this.#lift(target.value) });
  #element;

  constructor(player, closed) {
    this.#player = player;
    this.#closed = closed;
    this.#slow.setAttribute("aria-pressed", "false");
    this.#element = make(
      "section",
      { class: "ww-watch", "aria-label": say("The hands: {title}", { title: player.title }), tabindex: -1, keydown: (event) => this.#press(event) },
      make("div", { class: "ww-watch-hands" }, ...HANDS.map((hand) => this.#pictures[hand].element), this.#above.element),
      this.#told,
      make(
        "div",
        { class: "ww-watch-keys" },
        this.#key(say("‹ Before"), () => this.#stepBy(-1), say("Stroke before")),
        this.#key(say("Next ›"), () => this.#stepBy(1), say("Next stroke")),
        this.#slow,
        choice(say("Hands"), make("select", { change: ({ target }) => this.#show(target.value) }), SHOWN),
        choice(say("Lifted"), this.#lifted, MANNERS),
        this.#key(say("Close"), () => this.#close()),
      ),
    );
  }

  #key(words, click, name = words) {
    return make("button", { type: "button", "aria-label": name, click }, words);
  }

  async begin() {
    const diagram = this.#player.figure.querySelector(".ww-diagram");
    if (!this.#element.isConnected) {
      diagram.after(this.#element);
      this.#player.attach(this);
    }
    // What it was opened from would lie over it.
    this.#player.figure.querySelector('.ww-player [aria-expanded="true"]')?.click();
    this.#element.focus({ preventScroll: true });
    this.#element.scrollIntoView({ block: "start" });
    try {
      this.#score = await this.#player.wholeScore();
    } catch {
      this.#tell(say("The hands could not be fetched. Check the connection, then open them again."));
      return;
    }
    if (!this.#made) this.#manner = this.#player.exercise.motion ?? "wrist";
    this.#lifted.value = this.#manner;
    this.#make();
    if (!this.#round.hits.length) this.#tell(say("No hand plays in this exercise."));
  }

  /** Works the motion out, where tempo, hands or manner are others than before. */
  #make() {
    if (!this.#score) return;
    const { exercise } = this.#player;
    const tempo = this.#slowed ?? this.#player.tempo;
    const made = [tempo, isSwapped("hands"), this.#manner].join();
    if (made === this.#made) return;
    const share = this.#round ? this.#at / this.#round.secondsAt(this.#score.written) : 0;
    this.#made = made;
    this.#round = roundOf(this.#score, tempo, isSwapped("hands"), exercise.loop);
    this.#at = share * this.#round.secondsAt(this.#score.written);
    for (const hand of HANDS) this.#pictures[hand].set(this.#round.hands[hand], this.#round.period, this.#manner);
    this.#above.element.toggleAttribute("hidden", !travels(this.#round));
    this.#above.set(this.#round, isSwapped("hands"));
    this.#show(this.#shown);
    if (this.#at > 0) this.#draw(this.#at);
    else this.#draw((this.#round.hits[0]?.at ?? 0) - WAITING_S, true);
  }

  #show(hands) {
    this.#shown = hands;
    for (const hand of HANDS) {
      const isShown = hands === "both" ? this.#round?.hands[hand].length > 0 : hands === hand;
      this.#pictures[hand].element.hidden = !isShown;
    }
  }

  #lift(manner) {
    this.#manner = manner;
    this.#make();
  }

  #draw(at, isFirst = false) {
    for (const picture of Object.values(this.#pictures)) picture.draw(at, isFirst);
    if (this.#round && !this.#above.element.hasAttribute("hidden")) this.#above.draw(at);
  }

  #tell(words) {
    this.#told.textContent = words;
  }

  #press(event) {
    const by = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (!by || isTyping(event.target) || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    this.#stepBy(by);
  }

  /** Shows the next stroke of the hands that are shown, or the one before. */
  #stepBy(by) {
    const hits = (this.#round?.hits ?? []).filter(({ limb }) => this.#shown === "both" || limb === this.#shown);
    if (!hits.length) return;
    this.#player.stop();
    this.#halt();
    this.#step = this.#step < 0 ? (by > 0 ? 0 : hits.length - 1) : (this.#step + by + hits.length) % hits.length;
    const hit = hits[this.#step];
    const after = hits[this.#step + 1]?.at ?? hits[0].at + this.#round.secondsAt(this.#score.written);
    const end = hit.at + Math.min(LIFT_S, STEP_SHARE * Math.max(after - hit.at, 0.05));
    const who = hit.on === "pad" ? say(hit.limb) : say("{limb} on the {drum}", { limb: say(hit.limb), drum: say(hit.on) });
    const told = { number: this.#step + 1, all: hits.length, who, stroke: SAYS[hit.name] };
    this.#tell(say("{number} of {all}: {who}, {stroke}.", told));
    if (by < 0 || matchMedia("(prefers-reduced-motion: reduce)").matches) this.#stand(end);
    else this.#run(Math.max(hit.at - LIFT_S, Math.min(this.#at, hit.at)), end);
  }

  #toggleSlow() {
    const player = this.#player;
    const wasSlow = this.#slowed !== null;
    player.stop();
    if (wasSlow || !this.#round?.hits.length) return;
    this.#halt();
    this.#slowed = player.tempo;
    this.#isSlowing = true;
    player.setTempo(player.tempo / SLOW);
    player.forNow = { hands: player.hands, click: false, countIn: false, stretch: this.#slowed / player.tempo };
    this.#slow.setAttribute("aria-pressed", "true");
    player.play();
    this.#isSlowing = false;
  }

  /** Back from slow motion to the tempo of before. */
  #quicken() {
    const tempo = this.#slowed;
    this.#slowed = null;
    this.#player.forNow = null;
    this.#player.setTempo(tempo);
    this.#slow.setAttribute("aria-pressed", "false");
  }

  #halt() {
    cancelAnimationFrame(this.#running);
    this.#running = 0;
  }

  #stand(at) {
    this.#at = at;
    this.#draw(at);
  }

  /** In slow motion from a moment of the round to another. */
  #run(from, to) {
    const start = performance.now();
    const frame = (now) => {
      const at = from + Math.max(0, now - start) / 1000 / SLOW;
      if (!this.#element.isConnected) return;
      if (at >= to) {
        this.#halt();
        this.#stand(to);
        return;
      }
      this.#stand(at);
      this.#running = requestAnimationFrame(frame);
    };
    this.#running = requestAnimationFrame(frame);
  }

  #close() {
    if (this.#slowed !== null) this.#player.stop();
    this.#halt();
    this.#player.detach(this);
    this.#element.remove();
    this.#closed();
    this.#player.figure.querySelector(".ww-play")?.focus();
  }

  // What follows makes it a view of its player, as the one in the figure is.

  show() {
    if (this.#slowed !== null && !this.#isSlowing && !this.#player.isPlaying) this.#quicken();
    if (this.#player.isPlaying) {
      this.#halt();
      this.#step = -1;
    }
    this.#make();
  }

  mark(beat) {
    if (beat === null || !this.#round) return;
    const place = beat < 0 ? beat : beat % this.#score.written;
    this.#at = this.#round.secondsAt(Math.max(0, place));
    this.#draw(this.#round.secondsAt(place), beat < this.#score.written);
  }

  report() {}

  tell() {}
}

/** A field with its label and what can be chosen. */
function choice(label, field, choices) {
  field.id = freshId("watch");
  field.append(...Object.entries(choices).map(([value, words]) => make("option", { value }, words)));
  return make("span", { class: "ww-watch-choice" }, make("label", { for: field.id }, label), field);
}
