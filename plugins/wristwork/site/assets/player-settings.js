/** What a reader set for all players, kept on this device; where nothing can be kept it holds for the page. */

const START = { volume: 60, click: true, clickLevel: 80, countIn: true };
const KEYS = { volume: "ww.volume", click: "ww.click", clickLevel: "ww.click-level", countIn: "ww.count-in" };

/** Volume and loudness of the click (0 to 100), whether there is a click, and a bar of it before the first note. */
export const settings = Object.fromEntries(Object.keys(START).map((name) => [name, read(name)]));

const listeners = new Set();

function read(name) {
  const first = START[name];
  try {
    const kept = JSON.parse(localStorage.getItem(KEYS[name]));
    if (typeof kept !== typeof first) return first;
    return typeof first === "number" ? Math.max(0, Math.min(100, kept)) : kept;
  } catch {
    return first; // damaged, or out of reach
  }
}

export function keepSetting(name, value) {
  settings[name] = value;
  try {
    localStorage.setItem(KEYS[name], JSON.stringify(value));
  } catch {
    // Nothing is lost but the memory.
  }
  for (const listener of listeners) listener();
}

/** Calls `listener` after each change of a setting. */
export function onSetting(listener) {
  listeners.add(listener);
}
