/** What is said, in the course's language: the source is English, and the build puts the other words in here. */

/** @type {Record<string, string | Record<string, string>>} */
const WORDS = {};
/** What is said to the quarters of a beat after its number. */
export const QUARTERS = ["e", "&", "a"];
/** The language of the course, as in `de`. */
export const LANGUAGE = document.documentElement.lang || "en";
const RULES = new Intl.PluralRules(LANGUAGE);

/**
 * An English text in the course's language, with values in the places of their names in braces.
 * @param {string} text
 * @param {Record<string, unknown>} [values]
 */
export function say(text, values) {
  return filled(/** @type {string} */ (WORDS[text] ?? text), values);
}

/**
 * One of two texts by a count, in whose place `{count}` stands; other languages have more forms, or one.
 * @param {string} one
 * @param {string} many
 * @param {number} count
 * @param {Record<string, unknown>} [values]
 */
export function sayCount(one, many, count, values) {
  const forms = /** @type {Record<string, string>} */ (WORDS[one] ?? { one, other: many });
  return filled(forms[RULES.select(count)] ?? forms.other, { count, ...values });
}

/** @param {string} text @param {Record<string, unknown>} [values] */
const filled = (text, values) => (values ? text.replace(/\{(\w+)\}/g, (_, name) => String(values[name])) : text);

/**
 * A number as the course's language writes it: `85.5`, `85,5`. @param {number} value
 * @param {number} [digits] after the point, where they always stand
 */
export const decimal = (value, digits = 0) =>
  value.toLocaleString(LANGUAGE, { minimumFractionDigits: digits, maximumFractionDigits: Math.max(digits, 1), useGrouping: false });

/** Seconds as a clock shows them: `2:30`. @param {number} seconds */
export const clockFace = (seconds) => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;

/**
 * A text with elements, or other texts, in the places of their names in braces, as what to put into another element.
 * @param {string} text
 * @param {Record<string, Element|string>} elements
 * @returns {(string|Element)[]}
 */
export const sayAround = (text, elements) =>
  say(text).split(/\{(\w+)\}/).map((piece, at) => (at % 2 ? elements[piece] : piece)).filter((piece) => piece !== "");
