/** Dates on a page: the student's own, and which week is now. */

import { say } from "../base/words.js";
import { daysWords, startOf, weekOf } from "../base/dates.js";
import { make } from "../base/elements.js";

/** Sets the dates of the page and says which week is now. */
export function showDates(root = document) {
  for (const time of root.querySelectorAll("time.ww-days")) showDays(time);
  for (const room of root.querySelectorAll(".ww-this-week")) showThisWeek(room, root);
}

function showDays(time) {
  const start = startOf(time.dataset.wwStarts);
  const number = Number(time.dataset.wwWeek);
  if (start === null) return;
  time.textContent = daysWords(start, number);
  time.dateTime = new Date(start + (number - 1) * 7 * 86_400_000).toISOString().slice(0, 10);
  const isNow = weekOf(start) === number;
  time.closest("li, .ww-week-head")?.classList.toggle("ww-now", isNow);
  if (isNow) time.closest("a")?.setAttribute("aria-current", "date");
}

function showThisWeek(room, root) {
  const start = startOf(room.dataset.wwStarts);
  const days = [...root.querySelectorAll(".ww-weeks time.ww-days")];
  if (start === null || days.length === 0) return;
  const number = weekOf(start);
  const last = Math.max(...days.map((time) => Number(time.dataset.wwWeek)));
  const now = days.find((time) => Number(time.dataset.wwWeek) === number);
  const words = room.querySelector("p");
  if (now) {
    const link = now.closest("a");
    const title = link.querySelector("strong").textContent;
    words.replaceChildren(`${say("This week:")} `, make("a", { href: link.href }, say("Week {number}, {title}", { number, title })), ` (${now.textContent})`);
  } else if (number < 1) {
    words.textContent = say("Week 1 begins soon: {days}.", { days: daysWords(start, 1) });
  } else if (number > last) {
    words.textContent = say("All weeks of this course are over. They stay here to come back to.");
  }
}

showDates();
