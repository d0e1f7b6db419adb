/**
 * What stays on this device. Storage may be full, shut off or damaged: nothing here ever throws.
 *
 * What belongs to a course (log, list, ticks) is kept under a key with the course's path: several courses may live
 * on one host, which has one store for all of them. How a reader has set player and diagrams holds for all courses.
 */

import { say } from "./words.js";
import { ROOT } from "./site.js";

const OWN = `ww:${ROOT.pathname}:`;
// Keys had no path once.
const FORMER = "ww.";

export const NOT_KEPT =
  say("This browser keeps nothing for this page (private browsing, or its storage is full). It lasts until you leave.");

/** The key under which this course keeps something. */
export const ownKey = (name) => OWN + name;

/** The key that every course of the host shared before keys had a path. */
export const formerKey = (name) => FORMER + name;

/** What was kept under a key: a value, a text where it is no JSON, or null. */
export function recall(key) {
  let text = null;
  try {
    text = localStorage.getItem(key);
    return JSON.parse(text);
  } catch {
    return text;
  }
}

/** What this course keeps under a name; what stands under the former key holds until there is something of its own. */
export const recallOwn = (name) => recall(ownKey(name)) ?? recall(formerKey(name));

/** Keeps a value; false where the browser will not. */
export function keep(key, value) {
  try {
    localStorage.setItem(key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

export const keepOwn = (name, value) => keep(ownKey(name), value);

/** Forgets a key. */
export function forget(key) {
  try {
    localStorage.removeItem(key);
  } catch {
    // Then there is nothing either.
  }
}

/** The names under which something begins with `start`, by this course's keys or by the former ones. */
export function namesOf(keyOf, start = "") {
  try {
    const whole = keyOf(start);
    return Object.keys(localStorage)
      .filter((key) => key.startsWith(whole))
      .map((key) => key.slice(keyOf("").length));
  } catch {
    return [];
  }
}

/** Forgets all that this course keeps. */
export function forgetOwn() {
  for (const name of namesOf(ownKey)) forget(ownKey(name));
}
