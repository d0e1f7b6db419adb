/** Days of the weeks: from the course's first day, or from the student's own. */

import { LANGUAGE, say } from "./words.js";
import { recallOwn } from "../base/store.js";

export const OWN_START = "starts";
const DAY = 86_400_000;
// Days before months in English, as the build writes them; noon in one place is a day in all.
const LOCALE = LANGUAGE === "en" ? "en-GB" : LANGUAGE;
const written = (parts) => new Intl.DateTimeFormat(LOCALE, { ...parts, timeZone: "UTC" });
const WHOLE = written({ day: "numeric", month: "long", year: "numeric" });
const DAY_AND_MONTH = written({ day: "numeric", month: "long" });

/** An ISO date as milliseconds at noon (no change of clocks moves it to another day), or null. */
export function readDay(text) {
  const parts = typeof text === "string" ? text.match(/^(\d{4})-(\d\d)-(\d\d)$/) : null;
  if (!parts) return null;
  const [year, month, day] = parts.slice(1).map(Number);
  const date = new Date(Date.UTC(year, month - 1, day, 12));
  return date.getUTCMonth() === month - 1 && date.getUTCDate() === day ? date.getTime() : null;
}

/** An ISO date in words: `20 January 2027`; the text itself where it is none. */
export function dayWords(text) {
  const time = readDay(text);
  if (time === null) return text;
  return WHOLE.format(time);
}

/** Today, as the clock on the wall has it, as an ISO date. */
export function today(now = new Date()) {
  const two = (number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** The day on which week 1 begins for this student; null where nobody said. */
export const startOf = (course) => readDay(recallOwn(OWN_START)) ?? readDay(course);

/** The number of the week in which a day falls; 0 or less before the first. */
export const weekOf = (start, day = today()) => Math.floor((readDay(day) - start) / (7 * DAY)) + 1;

/** The first and the last day of a week in words. */
export function daysWords(start, number) {
  const first = start + (number - 1) * 7 * DAY;
  const last = start + (number * 7 - 1) * DAY;
  const sameYear = new Date(first).getUTCFullYear() === new Date(last).getUTCFullYear();
  const sameMonth = sameYear && new Date(first).getUTCMonth() === new Date(last).getUTCMonth();
  const end = WHOLE.format(last);
  if (sameMonth) return say("{day} to {end}", { day: new Date(first).getUTCDate(), end });
  return say("{start} to {end}", { start: (sameYear ? DAY_AND_MONTH : WHOLE).format(first), end });
}
