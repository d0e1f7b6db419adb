/** The practice lists that a tutor puts together, kept on their device: each has a name that no link carries. */

import { say } from "../base/words.js";
import { isId, isTempo } from "../base/limits.js";
import { keepOwn, recallOwn } from "../base/store.js";

export const LIST = "list";
export const MOST_LISTS = 40;
export const MOST_ITEMS = 24;
export const MOST_MINUTES = 25;
export const MOST_PASSES = 99;
export const LONGEST_NAME = 60;
export const WARM_UP_MINUTES = { least: 2, most: 15 };
const USUAL_MINUTES = 5;

/**
 * A warm-up of the tutor's own: minutes, and words that stand in for the course's steps where there are any.
 *
 * @typedef {{minutes: number, words: string}} WarmUp
 * @typedef {{id: string, from: number, to: number, unit: "minutes"|"passes", amount: number, words: string}} Item
 * @typedef {{name: string, warmUp: WarmUp|null, items: Item[]}} List
 * @typedef {{open: number, lists: List[]}} Lists at least one, and the place of the one that is worked on
 */

/** The lists where they could not be kept; they last as long as the page. @type {Lists|null} */
let unkept = null;

/** @returns {List} */
export const emptyList = () => ({ name: "", warmUp: null, items: [] });

/** @returns {Lists} */
export const readLists = () => unkept ?? soundLists(recallOwn(LIST));

/** Keeps the lists; false where they only last as long as the page. @param {Lists} lists */
export function writeLists(lists) {
  const isKept = keepOwn(LIST, lists);
  unkept = isKept ? null : lists;
  return isKept;
}

/** The list that is worked on. */
export function openList({ open, lists } = readLists()) {
  return lists[open];
}

/** The lists with another one in the place of the one worked on. @param {Lists} all */
export const withOpen = ({ open, lists }, list) => ({ open, lists: lists.map((each, at) => (at === open ? list : each)) });

/** The lists with one more, which is worked on from now. @param {Lists} all */
export const withNew = ({ lists }, list) => ({ open: lists.length, lists: [...lists, list] });

/** The lists without the one worked on. @param {Lists} all @returns {Lists} */
export function withoutOpen({ open, lists }) {
  const rest = lists.filter((_, at) => at !== open);
  return rest.length === 0 ? { open: 0, lists: [emptyList()] } : { open: Math.min(open, rest.length - 1), lists: rest };
}

/**
 * Works on a list that came from elsewhere, in a place of its own: what is put together already stays as it is. One that
 * is there already, or an empty one, is taken up.
 */
export function openWith(items, warmUp) {
  const all = readLists();
  const same = JSON.stringify([items, warmUp]);
  const at = all.lists.findIndex((list) => JSON.stringify([list.items, list.warmUp]) === same);
  if (at >= 0) return writeLists({ ...all, open: at });
  const list = { name: "", warmUp, items };
  const isEmpty = openList(all).items.length === 0 && !openList(all).name;
  return writeLists(isEmpty ? withOpen(all, list) : withNew(all, list));
}

/** What a list is called, where it has no name yet by its place. @param {Lists} all */
export const nameOf = ({ lists }, at) => lists[at].name || say("List {number}", { number: at + 1 });

/** Lets go of lists that could not be kept; what was kept is the store's to forget. */
export function dropLists() {
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

/** Whether a value is a warm-up of one's own, wherever it came from. */
export function isWarmUp(value) {
  const { least, most } = WARM_UP_MINUTES;
  const isTime = Number.isInteger(value?.minutes) && value.minutes >= least && value.minutes <= most;
  return isTime && typeof value.words === "string";
}

/** What was kept, whatever it is; there was one list without a name once. @returns {Lists} */
function soundLists(kept) {
  const found = Array.isArray(kept) ? [{ items: kept }] : Array.isArray(kept?.lists) ? kept.lists : [];
  const lists = found.filter((each) => Array.isArray(each?.items)).map(soundList);
  if (lists.length === 0) lists.push(emptyList());
  const open = Number.isInteger(kept?.open) ? kept.open : 0;
  return { open: Math.max(0, Math.min(open, lists.length - 1)), lists };
}

function soundList({ name, warmUp, items }) {
  const called = typeof name === "string" ? name.slice(0, LONGEST_NAME) : "";
  return { name: called, warmUp: isWarmUp(warmUp) ? warmUp : null, items: items.filter(isItem) };
}
