/** The sound-day calculator: builds its form where the page asks for one. Nothing typed leaves the device. */

import { make } from "./player-dom.js";
import { PartFields } from "./sound-day-part.js";
import { result } from "./sound-day-result.js";

/** Builds every calculator of the page that is not built yet. */
export function mountSoundDays(root = document) {
  for (const place of root.querySelectorAll("[data-ww-sound-day]:not([data-ww-mounted])")) {
    place.dataset.wwMounted = "";
    new SoundDay(place, JSON.parse(place.dataset.wwSoundDay));
  }
}

class SoundDay {
  constructor(place, facts) {
    this.facts = facts;
    this.parts = [];
    this.asked = false;
    this.list = make("div", { class: "ww-parts" });
    this.output = make("div", { class: "ww-result", role: "status" });
    const add = make("button", { type: "button", class: "ww-quiet-button", click: () => this.#add().surface.input.focus() }, "Add a part");
    const submit = make("button", { type: "submit" }, "Work it out");
    const form = make("form", { novalidate: true, submit: (event) => this.#submit(event) }, this.list, make("div", { class: "ww-buttons" }, add, submit));
    const table = make("details", {}, make("summary", {}, "The same as a table"), ...place.childNodes);
    place.append(form, this.output, table);
    this.#add();
  }

  #add() {
    const part = new PartFields(this.facts, { changed: () => this.#changed(), removed: (gone) => this.#remove(gone) });
    this.parts.push(part);
    this.list.append(part.element);
    this.#renumber();
    this.#forget();
    return part;
  }

  #remove(gone) {
    const index = this.parts.indexOf(gone);
    this.parts.splice(index, 1);
    gone.element.remove();
    this.#renumber();
    this.parts[Math.min(index, this.parts.length - 1)].surface.input.focus();
    if (this.asked) this.#workOut();
  }

  #renumber() {
    this.parts.forEach((part, index) => part.setNumber(index + 1, this.parts.length === 1));
  }

  #submit(event) {
    event.preventDefault();
    this.asked = true;
    this.#workOut()?.focus();
  }

  #changed() {
    if (this.asked) this.#workOut();
  }

  /** A result that no longer fits the form is taken away until it is asked for again. */
  #forget() {
    this.asked = false;
    this.output.replaceChildren();
  }

  /** Shows the result, or what is wrong; the first wrong field, or null. */
  #workOut() {
    const wrong = this.parts.map((part) => part.check()).find((input) => input) ?? this.#tooLong();
    if (wrong) this.output.replaceChildren(make("p", { class: "ww-error" }, "Nothing is worked out yet: a field needs another look."));
    else this.output.replaceChildren(...result(this.facts, this.parts.map((part) => part.values)));
    return wrong;
  }

  #tooLong() {
    let total = 0;
    for (const part of this.parts) {
      total += part.values.minutes;
      if (total > this.facts.minutes[1]) return part.tellTooLong(total);
    }
    return null;
  }
}

mountSoundDays();
