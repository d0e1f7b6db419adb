/**
 * A practice list in an address.
 *
 * The longest list of 12: 2 bytes of head; for each exercise 49 of id, 4 of tempos, 2 of amount, 2 of the words' length,
 * 2 of its own length and 2 of check; 3 of a warm-up of one's own; 600 bytes of words in all. That comes to
 * 2 + 12 · 61 + 3 + 600 = 1,337 bytes, 1,783 letters: 217 are left for the site's own address.
 */

import { isItem, isWarmUp } from "./list-draft.js";
import { pack, Reader, unpack, Writer } from "../base/pack.js";

export const VERSION = 1;
export const LONGEST_LINK = 2000;
const UNITS = ["minutes", "passes"];

/** The text for the address; a warm-up of the tutor's own stands behind the first exercise. */
export function encodeList(items, warmUp = null) {
  return pack(
    VERSION,
    items.map(({ id, from, to, unit, amount, words }, place) => {
      const writer = new Writer().text(id).number(from).number(to).number(amount * UNITS.length + UNITS.indexOf(unit));
      writer.text(words);
      if (place === 0 && warmUp) writer.number(warmUp.minutes).text(warmUp.words);
      return writer.bytes;
    }),
  );
}

/**
 * The list in a text, as far as it can be read.
 *
 * @returns {{
 *   items: import("./list-draft.js").Item[], warmUp: import("./list-draft.js").WarmUp|null,
 *   lost: number, isNewer: boolean, isList: boolean,
 * }}
 */
export function decodeList(text) {
  const { version, announced, pieces } = unpack(text);
  const read = pieces.map((piece) => (piece ? readPiece(piece) : null)).filter(Boolean);
  const items = read.map(({ item }) => item);
  const warmUp = read.find((each) => each.warmUp)?.warmUp ?? null;
  const isList = version !== null && version > 0;
  return { items, warmUp, lost: announced - items.length, isNewer: isList && version > VERSION, isList };
}

/** A later version may say more after what this one knows. */
function readPiece(piece) {
  try {
    const reader = new Reader(piece);
    const [id, from, to, amount] = [reader.text(), reader.number(), reader.number(), reader.number()];
    const unit = UNITS[amount % UNITS.length];
    /** @type {any} */
    const item = { id, from, to, unit, amount: Math.floor(amount / UNITS.length), words: reader.text() };
    return isItem(item) ? { item, warmUp: reader.isOver ? null : readWarmUp(reader) } : null;
  } catch {
    return null;
  }
}

/** The exercise counts, whatever stands behind it. */
function readWarmUp(reader) {
  try {
    const warmUp = { minutes: reader.number(), words: reader.text() };
    return isWarmUp(warmUp) ? warmUp : null;
  } catch {
    return null;
  }
}
