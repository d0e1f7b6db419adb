/** A session of a week's plan, as steps to be gone through one by one. */

import { find } from "./course.js";
import { ROOT } from "../base/site.js";

const ADDRESS = /^week-(\d{1,3})-session-([1-7])$/;

/** The session that an address names after its #, or null. */
export function sessionIn(text) {
  const [, week, session] = ADDRESS.exec(text) ?? [];
  return week === undefined ? null : { week: Number(week), session: Number(session) };
}

/** Where a session is run. */
export const sessionPlace = ({ week, session }) => `practice/#week-${week}-session-${session}`;

/**
 * The plan of a session; null where the course has none.
 *
 * @returns {Promise<{week: number, session: number, of: number, title: string, page: string, steps: import("./list-steps.js").Step[]}|null>}
 */
export async function readSession(course, { week, session }) {
  const answer = await fetch(new URL(`sessions/week-${week}.json`, ROOT));
  if (answer.status === 404) return null;
  if (!answer.ok) throw new Error(`${answer.url}: ${answer.status}`);
  const plan = await answer.json();
  const parts = plan.sessions[session - 1];
  if (!parts) return null;
  const steps = parts.map((part) => stepOf(course, part)).filter(Boolean);
  return { week, session, of: plan.sessions.length, title: plan.title, page: plan.page, steps };
}

function stepOf(course, { kind, minutes, id, tempo }) {
  const seconds = minutes * 60;
  if (kind !== "exercise") return { kind, seconds };
  const exercise = find(course, id);
  const item = { id, from: tempo, to: tempo, unit: "minutes", amount: minutes, words: "" };
  return exercise ? { kind, seconds, item, exercise } : null;
}
