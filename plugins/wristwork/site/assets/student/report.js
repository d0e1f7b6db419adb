/** A week's practice out of the log, as a table's rows and as a message. */

import { say } from "../base/words.js";
import { find } from "./course.js";
import { listenedWords } from "./listened.js";
import { bestTempo, secondsOn } from "./log-store.js";
import { dayWords, today } from "../base/dates.js";

const DAYS = 14;
const MOST_TEMPOS = 20;

/**
 * @param {import("./log-store.js").Log} log
 * @returns {import("./report-codec.js").Report}
 */
export function reportOf(course, week, log) {
  const days = lastDays(DAYS);
  const ids = course.weeks.find(({ number }) => number === week)?.ids ?? [];
  const rows = ids.map((id) => ({
    id,
    isDone: log.done.has(id),
    doneOn: log.done.get(id) ?? "",
    best: bestTempo(id, log),
    minutes: Math.round(secondsOn(log.played.keys(), id, log) / 60),
    heard: log.heard.get(id) ?? null,
    tempos: [...(log.clean.get(id) ?? [])].sort(([a], [b]) => (a < b ? -1 : 1)).slice(-MOST_TEMPOS).map(([, tempo]) => tempo),
  }));
  const minutes = days.map((day) => Math.round(secondsOn([day], null, log) / 60));
  return { week, minutes, question: log.question, rows };
}

/** The last days, today last. */
function lastDays(count) {
  const now = new Date();
  return Array.from({ length: count }, (_, at) =>
    today(new Date(now.getFullYear(), now.getMonth(), now.getDate() - (count - 1 - at), 12)),
  );
}

/** Short lines that no chat sets type with. */
export function reportMessage(course, { week, minutes, question, rows }, { name = "", withHeard = false } = {}) {
  const total = minutes.reduce((sum, each) => sum + each, 0);
  const lines = rows
    .filter(({ isDone, best, minutes: played }) => isDone || best !== null || played > 0)
    .map(({ id, isDone, doneOn, best, minutes: played, heard }) => {
      const done = isDone ? (doneOn ? say("done on {day}", { day: dayWords(doneOn) }) : say("done")) : "";
      const facts = [best === null ? "" : say("clean at {best}", { best }), played > 0 ? say("{played} min", { played }) : "", done];
      if (withHeard && heard) facts.push(listenedWords(heard));
      return `${plain(find(course, id)?.title ?? id)}: ${facts.filter(Boolean).join(", ")}`;
    });
  const asked = question.trim() === "" ? [] : [say("Question: {question}", { question: question.trim() })];
  const whose = name.trim() === "" ? say("My practice") : say("{name}, my practice", { name: plain(name) });
  const head = say("{whose}, week {week}: {total} minutes in the last {days} days", { whose, week, total, days: minutes.length });
  return [head, ...(lines.length > 0 ? lines : [say("No exercise of this week yet")]), ...asked].join("\n");
}

const plain = (words) => words.replace(/[*_~\u0060|<>]/g, " ").trim();
