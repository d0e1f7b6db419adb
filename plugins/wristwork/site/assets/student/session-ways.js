/** Where to go after a session: on to the next, back to the week, to one's own page; after a list, back to the tutor. */

import { say } from "../base/words.js";
import { placeOfWeek } from "./course.js";
import { make } from "../base/elements.js";
import { sessionPlace } from "./session.js";
import { ROOT } from "../base/site.js";
import { nextSession } from "./way-on.js";

/** @param {{week: number, title: string, page: string}} plan */
export function nextWays(course, plan) {
  const next = nextSession(course);
  const on = next === null ? [] : [way(say("Next time: week {week}, session {session}", { week: next.week, session: next.session }), new URL(sessionPlace(next), ROOT))];
  const back = way(say("Back to week {week}", { week: plan.week }), placeOfWeek(plan));
  return make("ul", { class: "ww-today-on" }, ...on, back, way(say("My practice"), new URL("my-practice/", ROOT)));
}

/** After a list that somebody sent: to the page that makes the answer. */
export const answerWay = () => make("ul", { class: "ww-today-on" }, way(say("Tell your tutor how it went"), new URL("my-practice/", ROOT)));

const way = (words, href) => make("li", {}, make("a", { href }, words));
