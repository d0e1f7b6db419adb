/** The practice list that a tutor is putting together, kept on their device until it is sent. */

import { isId, isTempo } from "../base/limits.js";
import { keepOwn, recallOwn } from "../base/store.js";

export const LIST = "list";
export const MOST_ITEMS = 24;
export const MOST_MINUTES = 25;
export const MOST_PASSES = 99;
const USUAL_MINUTES = 5;

/** The list where it could not be kept; it lasts as long as the page. */
let unkept = null;

/**
 * @typedef {{id: string, from: number, to: number, unit: "minutes"|"passes", amount: number, words: string}} Item
 * @returns {Item[]} the list so far
 */
export function readDraft() {
  if (unkept) return unkept;
  const kept = recallOwn(LIST);
  return Array.isArray(kept) ? kept.filter(isItem) : [];
}

/** Keeps the list; false where it only lasts as long as the page. */
export function writeDraft(items) {
  const isKept = keepOwn(LIST, items);
  unkept = isKept ? null : items;
  return isKept;
}

/** Lets go of a list that could not be kept; one that was kept is the store's to forget. */
export function dropDraft() {
  unkept = null;
}

/** A new entry, to be played from one tempo to another. */
export const newItem = (id, from, to) => ({ id, from, to: Math.max(from, to), unit: "minutes", amount: USUAL_MINUTES, words: "" });

/** Whether a value is an entry of a list, wherever it came from. */
export function isItem(value) {
  if (typeof value !== "object" || value === null) return false;
  const { id, from, to, unit, amount, words } = value;
  const most = unit === "minutes" ? MOST_MINUTES : unit === "passes" ? MOST_PASSES : 0;
  const isAmount = Number.isInteger(amount) && amount >= 1 && amount <= most;
  return isId(id) && isTempo(from) && isTempo(to) && isAmount && typeof words === "string";
}
