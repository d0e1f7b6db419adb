/** Where a student goes on: the session after the one that was done last. */

import { readLog } from "./log-store.js";

/**
 * @param {{weeks: {number: number, sessions: number}[]}} course weeks in the order of the course
 * @returns {{week: number, session: number}|null} null where nothing was done yet, or all is done
 */
export function nextSession(course, log = readLog()) {
  const last = lastDone(log);
  if (last === null) return null;
  const after = course.weeks.filter(({ number }) => number >= last.week);
  for (const { number, sessions } of after) {
    for (let session = 1; session <= sessions; session += 1) {
      if (!log.sessions.has(`${number}.${session}`)) return { week: number, session };
    }
  }
  return null;
}

/** The session done last: on the latest day, the furthest on that day. */
function lastDone(log) {
  let last = null;
  for (const [name, day] of log.sessions) {
    const [week, session] = name.split(".").map(Number);
    const isLater = last === null || day > last.day || (day === last.day && (week > last.week || (week === last.week && session > last.session)));
    if (isLater) last = { week, session, day };
  }
  return last;
}

/** The week of what was practised last: of a session that was done, or of exercises that were played or clean. */
export function lastWeek(course, log = readLog()) {
  const done = lastDone(log);
  const days = [...log.played].map(([day, ids]) => ({ day, ids: [...ids.keys()] }));
  for (const [id, on] of log.clean) for (const day of on.keys()) days.push({ day, ids: [id] });
  const latest = days.filter(({ ids }) => ids.some((id) => weekOf(course, id) !== null)).sort((a, b) => (a.day < b.day ? 1 : -1))[0];
  if (latest === undefined || (done !== null && done.day >= latest.day)) return done?.week ?? null;
  return Math.max(...latest.ids.map((id) => weekOf(course, id) ?? 0));
}

/** The week that teaches an exercise: the first that has it. */
const weekOf = (course, id) => course.weeks.find(({ ids }) => ids.includes(id))?.number ?? null;
