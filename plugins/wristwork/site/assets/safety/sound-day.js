/** The sound-day calculator: builds its form where the page asks for one. Nothing typed leaves the device. */

import { say } from "../base/words.js";
import { make } from "../base/elements.js";
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
    this.list = make("div", { class: "ww-parts" });
    this.output = make("div", { class: "ww-result", role: "status" });
    const add = make("button", { type: "button", class: "ww-quiet-button", click: () => this.#add().surface.input.focus() }, say("Add a part"));
    const submit = make("button", { type: "submit" }, say("Work it out"));
    const form = make(
      "form",
      // A result that no longer fits the form is taken away until it is asked for again. It stands below the
      // buttons, and errors change only when asked: nothing moves while a finger is on its way to a button.
      { novalidate: true, input: () => this.#forget(), submit: (event) => this.#submit(event) },
      this.list,
      make("div", { class: "ww-buttons" }, add, submit),
    );
    const table = make("details", {}, make("summary", {}, say("Without the calculator: a table of times")), ...place.childNodes);
    place.append(form, this.output, table);
    this.#add();
  }

  #add() {
    const part = new PartFields(this.facts, (gone) => this.#remove(gone));
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
    this.#forget();
  }

  #renumber() {
    for (const [index, part] of this.parts.entries()) part.setNumber(index + 1, this.parts.length === 1);
  }

  #submit(event) {
    event.preventDefault();
    this.#workOut()?.focus();
  }

  #forget() {
    this.output.replaceChildren();
  }

  /** Shows the result, or what is wrong; the first wrong field, or null. */
  #workOut() {
    const wrong = this.parts.map((part) => part.check()).find((input) => input) ?? this.#tooLong();
    const lines = wrong
      ? [make("p", { class: "ww-error" }, say("Nothing is worked out yet: a field needs another look."))]
      : result(
          this.facts,
          this.parts.map((part) => part.values),
        );
    this.output.replaceChildren(...lines);
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
