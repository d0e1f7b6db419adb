/** Days of the weeks: from the course's first day, or from the student's own. */

import { recallOwn } from "../base/store.js";

export const OWN_START = "starts";
const DAY = 86_400_000;
const MONTHS =
  "January February March April May June July August September October November December".split(" ");

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
  const day = new Date(time);
  return `${day.getUTCDate()} ${MONTHS[day.getUTCMonth()]} ${day.getUTCFullYear()}`;
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
  const first = new Date(start + (number - 1) * 7 * DAY);
  const last = new Date(start + (number * 7 - 1) * DAY);
  const [a, b] = [first, last].map((day) => [day.getUTCDate(), MONTHS[day.getUTCMonth()], day.getUTCFullYear()]);
  const sameYear = a[2] === b[2];
  const opening = sameYear && a[1] === b[1] ? [a[0]] : sameYear ? a.slice(0, 2) : a;
  return `${opening.join(" ")} to ${b.join(" ")}`;
}
