/** Elements, made and named. */

import { say } from "./words.js";

/** An element with attributes (a function is a listener, false and null leave out) and children. */
export function make(name, attributes = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(key, value);
    else if (value !== false && value !== null) element.setAttribute(key, value === true ? "" : value);
  }
  element.append(...children);
  return element;
}

/** An element of a drawing, with attributes. */
export function draw(name, attributes) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
}

let made = 0;

export const within = (value, low, high) => Math.max(low, Math.min(high, value));

/** An id that nothing else on the page has. */
export function freshId(name) {
  made += 1;
  return `ww-${name}-${made}`;
}

/**
 * A whole-number field that reports a typed number, within its limits, when the reader is done. What it shows
 * is told by `showNumber`; what is no number gives way to that. Whoever enters it types a new number over the old one.
 */
export function numberField(label, { min, max, set }) {
  const field = make("input", { type: "number", inputmode: "numeric", min, max, step: 1, "aria-label": label });
  field.addEventListener("change", () => {
    const typed = readNumber(field.value);
    if (typed !== null) set(within(Math.round(typed), Number(field.min), Number(field.max)));
    field.value = field.dataset.wwSet;
  });
  let isEntered = false;
  field.addEventListener("focus", () => {
    isEntered = true;
    field.select();
  });
  // A press puts its caret where it falls, after the focus; a second press means that place.
  field.addEventListener("click", () => {
    if (isEntered) field.select();
    isEntered = false;
  });
  field.addEventListener("blur", () => {
    field.value = field.dataset.wwSet ?? field.value;
  });
  return field;
}

/** A box to tick with its words, as `element`, and the `box` itself. */
export function checkBox(words, set) {
  const box = make("input", { type: "checkbox", change: () => set(box.checked) });
  return { box, element: make("label", { class: "ww-check" }, box, words) };
}

/** Shows a level, 0 to 100, on a slider. */
export function showLevel(slider, level) {
  slider.value = level;
  slider.setAttribute("aria-valuetext", say("{level} percent", { level }));
}

/** Shows a number in a field; while the reader is in it, it waits until they leave. */
export function showNumber(field, value) {
  field.dataset.wwSet = value;
  if (!field.matches(":focus")) field.value = value;
}

/** The number that a text says, or null. */
export function readNumber(text) {
  const value = text === null || text.trim() === "" ? NaN : Number(text);
  return Number.isNaN(value) ? null : value;
}

export const isTyping = (element) =>
  element.matches("textarea, select, [contenteditable], input:not([type=range], [type=checkbox], [type=radio])");
