/**
 * The practice list: without anything in the address one is put together, with a list it is gone through step by step,
 * and so is a session of a week's plan that the address names.
 */

import { say } from "../base/words.js";
import { button } from "../base/copying.js";
import { courseFor, placeOfWeek } from "./course.js";
import { Composer } from "./list-composer.js";
import { decodeList } from "./list-codec.js";
import { openWith } from "./list-draft.js";
import { stepsOf } from "./list-steps.js";
import { startLog } from "./log-marks.js";
import { readLog, sessionName, setSession } from "./log-store.js";
import { make } from "../base/elements.js";
import { fragment } from "../base/pack.js";
import { startPlayers } from "../player/players.js";
import { Run, trouble } from "./run.js";
import { readSession, sessionIn } from "./session.js";
import { answerWay, nextWays } from "./session-ways.js";
import { NOT_KEPT } from "../base/store.js";

/** @type {HTMLElement} */
const room = document.querySelector("[data-ww-list]");

async function show() {
  const course = await courseFor(room);
  if (course === null) return;
  const text = fragment();
  const named = sessionIn(text);
  if (named !== null) await showSession(course, named);
  else if (text === "") room.replaceChildren(new Composer(course).element);
  else room.replaceChildren(listRun(course, decodeList(text)));
}

function listRun(course, list) {
  const change = (items, warmUp) => {
    openWith(items, warmUp);
    history.replaceState(null, "", location.pathname);
    show();
  };
  const known = list.items.filter(({ id }) => course.exercises.has(course.moved.get(id) ?? id));
  const told = trouble(list, list.items.length - known.length);
  const notice = told ? [make("p", { class: "ww-list-trouble", role: "alert" }, told)] : [];
  if (known.length === 0) {
    return make("div", {}, ...notice, make("p", {}, button(say("Put a list together"), () => change([], null))));
  }
  const edit = button(say("Change this list"), () => change(list.items, list.warmUp));
  return make("div", {}, ...notice, new Run(course, stepsOf(course, known, list.warmUp), { around: [edit], ended: () => [answerWay()] }).element);
}

async function showSession(course, named) {
  let plan = null;
  try {
    plan = await readSession(course, named);
  } catch {
    room.replaceChildren(make("p", { role: "alert" }, say("The plan can’t be reached, and it is not kept on this device yet.")));
    return;
  }
  if (plan === null || plan.steps.length === 0) {
    const words = say("There is no session {session} in a week {week} of this course.", { session: named.session, week: named.week });
    room.replaceChildren(make("p", { role: "alert", class: "ww-list-trouble" }, words));
    return;
  }
  const title = room.closest("article")?.querySelector("h1");
  if (title) title.textContent = say("Week {week}, session {session}", { week: plan.week, session: plan.session });
  const head = make("p", { class: "ww-session-name" }, make("a", { href: placeOfWeek(plan) }, make("bdi", {}, plan.title)));
  const run = new Run(course, plan.steps, { ended: () => sessionEnd(course, plan) });
  room.replaceChildren(make("div", {}, head, run.element));
}

/** The session is ticked when it is over; whoever left half of it out can take the tick away. */
function sessionEnd(course, plan) {
  const name = sessionName(plan.week, plan.session);
  const isKept = setSession(name, true);
  const box = make("input", { type: "checkbox", change: () => setSession(name, box.checked) });
  box.checked = readLog().sessions.has(name);
  const tick = make("label", { class: "ww-check" }, box, say("Session {session} of week {week} is done", { session: plan.session, week: plan.week }));
  const unkept = isKept ? [] : [make("p", { role: "status" }, NOT_KEPT)];
  return [make("p", {}, tick), ...unkept, nextWays(course, plan)];
}

// Exercises come later, each with a player and marks.
startPlayers();
startLog();
window.addEventListener("hashchange", show);
show();
