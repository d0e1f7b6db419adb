/** The home page of somebody who has practised: where to go on, and a line that fills as exercises come clean. */

import { say } from "../base/words.js";
import { find, readCourse } from "./course.js";
import { readLog } from "./log-store.js";
import { draw, make } from "../base/elements.js";
import { sessionPlace } from "./session.js";
import { ROOT } from "../base/site.js";
import { nextSession } from "./way-on.js";

async function show(ways) {
  const log = readLog();
  if (log.sessions.size === 0 && log.clean.size === 0) return;
  const course = await readCourse();
  const next = nextSession(course, log);
  if (next !== null) {
    const words = say("Continue: week {week}, session {session}", { week: next.week, session: next.session });
    ways.querySelector(".ww-way--first")?.classList.remove("ww-way--first");
    ways.prepend(make("a", { class: "ww-way ww-way--first", href: new URL(sessionPlace(next), ROOT) }, words));
  }
  const clean = new Set([...log.clean.keys()].map((id) => find(course, id)?.id).filter(Boolean));
  if (clean.size > 0) showClean(ways, clean.size, course.exercises.size);
}

/** The line of the stick, drawn as far as exercises are clean; said in words as well. */
function showClean(ways, count, all) {
  ways.after(make("p", { class: "ww-hero__clean" }, say("{count} of {all} exercises clean.", { count, all })));
  const line = document.querySelector(".ww-hero__line path[stroke]");
  if (!line) return;
  const share = Math.round((1000 * count) / all) / 1000;
  const filled = draw("path", { class: "ww-hero__filled", d: line.getAttribute("d"), pathLength: 1, "stroke-dasharray": `${share} 2` });
  line.after(filled);
}

const ways = document.querySelector("[data-ww-going-on]");
if (ways) show(ways).catch(() => {}); // without a signal the page is what it is for everybody
