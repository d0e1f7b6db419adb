/** The practice list that a tutor is putting together, kept on their device until it is sent. */

import { isId, isTempo } from "../base/limits.js";
import { keep, recall } from "../base/store.js";

const KEY = "ww.list";
export const MOST_ITEMS = 24;
export const MOST_MINUTES = 25;
export const MOST_PASSES = 99;
const USUAL_MINUTES = 5;

let draft = null;

/**
 * @typedef {{id: string, from: number, to: number, unit: "minutes"|"passes", amount: number, words: string}} Item
 * @returns {Item[]} the list so far
 */
export function readDraft() {
  const kept = recall(KEY);
  draft = Array.isArray(kept) ? kept.filter(isItem) : (draft ?? []);
  return draft;
}

/** Keeps the list; false where it only lasts as long as the page. */
export function writeDraft(items) {
  draft = items;
  return keep(KEY, items);
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
