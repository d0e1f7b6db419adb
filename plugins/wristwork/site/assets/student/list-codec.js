/**
 * A practice list in an address.
 *
 * The longest list of 12: 2 bytes of head; for each exercise 49 of id, 4 of tempos, 2 of amount, 2 of the words' length,
 * 2 of its own length and 2 of check; 600 bytes of words in all. That comes to 2 + 12 · 61 + 600 = 1,334 bytes, 1,779
 * letters: 221 are left for the site's own address.
 */

import { isItem } from "./list-draft.js";
import { pack, Reader, unpack, Writer } from "../base/pack.js";

export const VERSION = 1;
export const LONGEST_LINK = 2000;
const UNITS = ["minutes", "passes"];

/** The text for the address. */
export function encodeList(items) {
  return pack(
    VERSION,
    items.map(({ id, from, to, unit, amount, words }) => {
      const writer = new Writer().text(id).number(from).number(to).number(amount * UNITS.length + UNITS.indexOf(unit));
      return writer.text(words).bytes;
    }),
  );
}

/**
 * The list in a text, as far as it can be read.
 *
 * @returns {{items: import("./list-draft.js").Item[], lost: number, isNewer: boolean, isList: boolean}}
 */
export function decodeList(text) {
  const { version, announced, pieces } = unpack(text);
  const items = pieces.map((piece) => (piece ? readItem(piece) : null)).filter(Boolean);
  const isList = version !== null && version > 0;
  return { items, lost: announced - items.length, isNewer: isList && version > VERSION, isList };
}

/** A later version may say more after what this one knows. */
function readItem(piece) {
  try {
    const reader = new Reader(piece);
    const [id, from, to, amount] = [reader.text(), reader.number(), reader.number(), reader.number()];
    const unit = UNITS[amount % UNITS.length];
    /** @type {any} */
    const item = { id, from, to, unit, amount: Math.floor(amount / UNITS.length), words: reader.text() };
    return isItem(item) ? item : null;
  } catch {
    return null;
  }
}
