/** A week's plan: sessions that are done are marked, the next one is chosen, and a tempo in the plan sets the player. */

import { say } from "../base/words.js";
import { button, Outcome } from "../base/copying.js";
import { onLog, readLog, sessionName, setSession } from "./log-store.js";
import { dayWords } from "../base/dates.js";
import { make } from "../base/elements.js";
import { playerOf } from "../player/player-list.js";
import { told } from "../base/site.js";
import { NOT_KEPT } from "../base/store.js";

const week = Number(told.week);
/** @type {any[]} */
const choices = [...document.querySelectorAll(".ww-sessions > input")];
const outcome = new Outcome();

for (const [index, choice] of choices.entries()) {
  const name = sessionName(week, index + 1);
  const panel = choice.nextElementSibling.nextElementSibling;
  const key = button("", () => outcome.report(setSession(name, !readLog().sessions.has(name)) ? "" : NOT_KEPT), { "aria-pressed": "false" });
  panel.querySelector(".ww-start-session")?.append(key);
  const mark = make("span", { class: "ww-unseen" });
  choice.nextElementSibling.append(mark);
  const show = () => {
    const day = readLog().sessions.get(name);
    choice.nextElementSibling.classList.toggle("ww-is-done", day !== undefined);
    mark.textContent = day === undefined ? "" : say(", done");
    key.setAttribute("aria-pressed", String(day !== undefined));
    key.textContent = day === undefined ? say("I have done it") : say("Done on {day}", { day: dayWords(day) });
  };
  onLog(show);
  show();
}

const next = choices.findIndex((_, index) => !readLog().sessions.has(sessionName(week, index + 1)));
if (next > 0) choices[next].checked = true;
document.querySelector(".ww-sessions")?.after(outcome.element);

/** @type {any} */
const planned = document.querySelectorAll(".ww-plan a[data-ww-tempo]");
for (const link of planned) {
  link.addEventListener("click", (event) => {
    const figure = document.getElementById(link.hash.slice(1));
    const player = figure && playerOf(figure);
    if (!player || link.pathname !== location.pathname) return;
    event.preventDefault();
    player.setTempo(Number(link.dataset.wwTempo));
    location.hash = link.hash;
  });
}
