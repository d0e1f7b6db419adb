/** What a reader set for all players, kept on this device; where nothing can be kept it holds for the page. */

import { within } from "../base/elements.js";
import { keep, recall } from "../base/store.js";

const START = { volume: 90, click: true, clickLevel: 80, countIn: true };
const KEYS = { volume: "ww.volume", click: "ww.click", clickLevel: "ww.click-level", countIn: "ww.count-in" };

/** Volume and loudness of the click (0 to 100), whether there is a click, and a bar of it before the first note. */
export const settings = /** @type {typeof START} */ (
  Object.fromEntries(Object.keys(START).map((name) => [name, read(name)]))
);

const listeners = new Set();

function read(name) {
  const first = START[name];
  const kept = recall(KEYS[name]);
  if (typeof kept !== typeof first) return first;
  return typeof first === "number" ? within(kept, 0, 100) : kept;
}

export function keepSetting(name, value) {
  settings[name] = value;
  keep(KEYS[name], value);
  for (const listener of listeners) listener();
}

/** Calls `listener` after each change of a setting. */
export function onSetting(listener) {
  listeners.add(listener);
}
