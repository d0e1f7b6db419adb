/** One part of the day in the form: its fields, what they say, and what is wrong with them. */

import { say } from "../base/words.js";
import { freshId, make } from "../base/elements.js";

// One to four digits, with a decimal point or comma and one or two more: "1,000" is not taken for one.
const NUMBER = /^\d{1,4}([.,]\d{1,2})?$/;

const GUESS = say("A guess on the cautious side. A level measured in your room is better.");
const MEASURED = say("Yours: measured, or from the instrument.");
const HEADPHONES = say("Headphones can be quiet or louder than a kit: there is no guess, type what they measure.");

/** A number as typed, or null where it is none. */
export function typedNumber(text) {
  const typed = text.trim();
  return NUMBER.test(typed) ? Number(typed.replace(",", ".")) : null;
}

/** What is wrong with a typed number, or an empty text. */
export function complaint(text, what, [low, high], { aboveLow = false } = {}) {
  const wanted = aboveLow ? say("above {low}, up to {high}", { low, high }) : say("{low} to {high}", { low, high });
  if (text.trim() === "") return say("{what} is missing: type a number, {wanted}.", { what, wanted });
  const value = typedNumber(text);
  if (value === null) return say("{what} must be a number in digits, {wanted}.", { what, wanted });
  if (value < low || value > high || (aboveLow && value === low)) return say("{what} must be {wanted}.", { what, wanted });
  return "";
}

/** The fields of a part; `removed` is called with it when it is to go. */
export class PartFields {
  constructor(facts, removed) {
    this.facts = facts;
    this.surface = this.#choice(say("What you play or hear"), [
      ...facts.surfaces.map((known) => [known.name, known.title]),
      ["other", say("Something else")],
    ]);
    this.level = this.#number(say("Level in dB"));
    this.weighting = this.#choice(say("Measured as"), [["A", "dB(A)"], ["C", "dB(C)"]]);
    this.minutes = this.#number(say("Minutes"));
    this.protection = this.#choice(
      say("Hearing protection"),
      facts.protection.map((kind) => [kind.key, kind.title]),
    );
    this.label = this.#number(say("Number on its label, in dB"));
    this.legend = make("legend");
    this.remove = make("button", { type: "button", class: "ww-quiet-button", click: () => removed(this) }, say("Remove"));
    const fields = [this.surface, this.level, this.weighting, this.minutes, this.protection, this.label];
    this.element = make("fieldset", {}, this.legend, ...fields.map((field) => field.row), this.remove);
    this.element.addEventListener("input", (event) => this.#follow(event.target));
    this.#takeGuess();
    this.#showLabel();
  }

  /** The part's number in the day, from 1; a lone part cannot be removed. */
  setNumber(number, alone) {
    this.legend.textContent = say("Part {number}", { number });
    this.remove.hidden = alone;
    this.remove.setAttribute("aria-label", say("Remove part {number}", { number }));
  }

  get kind() {
    return this.facts.protection.find((known) => known.key === this.protection.input.value);
  }

  /** Shows what is wrong at each field; the first wrong field, or null. */
  check() {
    const { levels, minutes, labels } = this.facts;
    this.#tell(this.level, complaint(this.level.input.value, say("The level"), levels));
    this.#tell(this.minutes, complaint(this.minutes.input.value, say("The time"), minutes, { aboveLow: true }));
    const label = this.kind.hasLabel ? complaint(this.label.input.value, say("The number on the label"), labels) : "";
    this.#tell(this.label, label);
    return [this.level, this.minutes, this.label].find((field) => field.error.textContent)?.input ?? null;
  }

  /** Says at the minutes that the day has become too long. */
  tellTooLong(total) {
    this.#tell(this.minutes, say("With this the day has {total} minutes; a day has {minutes}.", { total, minutes: this.facts.minutes[1] }));
    return this.minutes.input;
  }

  /** The values of fields that were checked. */
  get values() {
    return {
      level: typedNumber(this.level.input.value),
      minutes: typedNumber(this.minutes.input.value),
      protection: this.kind.key,
      label: this.kind.hasLabel ? typedNumber(this.label.input.value) : 0,
      weighting: this.weighting.input.value,
      guessed: this.level.hint.textContent === GUESS,
    };
  }

  #follow(input) {
    if (input === this.surface.input) this.#takeGuess();
    if (input === this.level.input) this.level.hint.textContent = MEASURED;
    if (input === this.protection.input) this.#showLabel();
  }

  #takeGuess() {
    const picked = this.facts.surfaces.find((known) => known.name === this.surface.input.value);
    const guess = picked?.level ?? null;
    this.level.input.value = guess ?? "";
    this.level.hint.textContent = guess !== null ? GUESS : picked ? HEADPHONES : MEASURED;
    if (guess !== null) this.weighting.input.value = "A";
  }

  #showLabel() {
    this.label.row.hidden = !this.kind.hasLabel;
    this.label.input.value = "";
  }

  #tell(field, message) {
    field.error.textContent = message;
    field.error.hidden = !message;
    if (message) field.input.setAttribute("aria-invalid", "true");
    else field.input.removeAttribute("aria-invalid");
  }

  #choice(name, options) {
    const id = freshId("day");
    const input = make("select", { id }, ...options.map(([value, words]) => make("option", { value }, words)));
    return { input, row: make("div", { class: "ww-day-field" }, make("label", { for: id }, name), input) };
  }

  #number(name) {
    const id = freshId("day");
    const hint = make("p", { class: "ww-hint", id: `${id}-hint` });
    const error = make("p", { class: "ww-error", id: `${id}-error`, hidden: true });
    const input = make("input", {
      id,
      type: "text",
      inputmode: "decimal",
      autocomplete: "off",
      "aria-describedby": `${hint.id} ${error.id}`,
    });
    const row = make("div", { class: "ww-day-field" }, make("label", { for: id }, name), input, hint, error);
    return { input, hint, error, row };
  }
}
