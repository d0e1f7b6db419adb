/**
 * The student's log, on this device only.
 *
 * `played`: seconds by day and id. `clean`: the highest clean tempo by id and day. `done`: the day by id. Ids are those
 * of exercises; seconds of what has none (examples, warm-ups) are kept under `OTHER`. `sessions`: the day by session,
 * named as in `5.3`. `heard`: what the player heard last, by id. `week` is the week the student says they are in, null where nobody said.
 */

import { isId, isTempo } from "../base/limits.js";
import { forgetOwn, keepOwn, recallOwn } from "../base/store.js";
import { readDay, today } from "../base/dates.js";
import { readListened } from "./listened.js";

export const LOG = "log";
const VERSION = 1;
const MOST_SECONDS = 86_400;
const LONGEST_QUESTION = 600;
export const OTHER = "-";

let log = null;
const listeners = new Set();
/** Changes that could not be kept: each is made again on what is there, until it is kept. */
let waiting = [];

/** @typedef {{played: Map<string, Map<string, number>>, clean: Map<string, Map<string, number>>, done: Map<string, string>, sessions: Map<string, string>, heard: Map<string, import("./listened.js").Listened>, week: number|null, question: string}} Log */

/** @returns {Log} */
export function readLog() {
  log ??= sound(recallOwn(LOG));
  return log;
}

/** A log out of any value: what is not sound is left out. */
export function sound(value) {
  const from = typeof value === "object" && value !== null ? value : {};
  const isSeconds = (seconds) => Number.isFinite(seconds) && seconds > 0 && seconds <= MOST_SECONDS;
  const isDay = (text) => readDay(text) !== null;
  const isPlayed = (id) => isId(id) || id === OTHER;
  const isWeek = Number.isInteger(from.week) && from.week > 0 && from.week < 1000;
  return {
    played: mapOf(from.played, isDay, (day) => mapOf(day, isPlayed, (seconds) => (isSeconds(seconds) ? seconds : null))),
    clean: mapOf(from.clean, isId, (days) => mapOf(days, isDay, (tempo) => (isTempo(tempo) ? tempo : null))),
    done: mapOf(from.done, isId, (day) => (isDay(day) ? day : null)),
    sessions: mapOf(from.sessions, isSession, (day) => (isDay(day) ? day : null)),
    heard: mapOf(from.heard, isId, readListened),
    week: isWeek ? from.week : null,
    question: typeof from.question === "string" ? from.question.slice(0, LONGEST_QUESTION) : "",
  };
}

const isSession = (name) => /^[1-9]\d{0,2}\.[1-7]$/.test(name);

function mapOf(from, isKey, read) {
  const entries = typeof from === "object" && from !== null ? Object.entries(from) : [];
  const found = new Map();
  for (const [key, inside] of entries) {
    const value = isKey(key) ? read(inside) : null;
    if (value !== null) found.set(key, value);
  }
  return found;
}

/** The log as a value that JSON can hold. */
export function plainLog({ played, clean, done, sessions, heard, week, question }) {
  const plain = (map) => Object.fromEntries([...map].map(([key, value]) => [key, value instanceof Map ? plain(value) : value]));
  return { wristwork: VERSION, played: plain(played), clean: plain(clean), done: plain(done), sessions: plain(sessions), heard: plain(heard), week, question };
}

/** The log as JSON, for a file. */
export const logText = () => JSON.stringify(plainLog(readLog()));

/** Changes the log and keeps it; false where it only lasts as long as the page. */
export function changeLog(change) {
  // Another window may have written since: what it kept comes first, then all that is not kept yet.
  waiting.push(change);
  log = sound(recallOwn(LOG));
  for (const each of waiting) each(log);
  const isKept = keepOwn(LOG, plainLog(log));
  if (isKept) waiting = [];
  for (const listener of listeners) listener();
  return isKept;
}

export const onLog = (listener) => listeners.add(listener);

/** Deletes all that this course keeps on the device, the log and what else there is. */
export function deleteAll() {
  forgetOwn();
  waiting = [];
  log = sound(null);
  // What stands under the former key is another course's log: an empty one of our own keeps it out of sight.
  if (recallOwn(LOG) !== null) keepOwn(LOG, plainLog(log));
  for (const listener of listeners) listener();
}

/** Puts another log into this one: nothing is lost, and of two values for one thing the higher stays. */
export const joinLog = (other) => changeLog((mine) => joined(mine, other));

/** The first log, with the other one put into it. */
export function joined(mine, other) {
  for (const [name, days] of [["played", other.played], ["clean", other.clean]]) {
    for (const [key, inside] of days) {
      const own = inner(mine[name], key);
      for (const [under, value] of inside) own.set(under, Math.max(value, own.get(under) ?? 0));
    }
  }
  for (const [id, day] of other.done) mine.done.set(id, mine.done.get(id) ?? day);
  for (const [name, day] of other.sessions) mine.sessions.set(name, mine.sessions.get(name) ?? day);
  for (const [id, listened] of other.heard) {
    if (!(mine.heard.get(id)?.day > listened.day)) mine.heard.set(id, listened);
  }
  mine.week ??= other.week;
  mine.question ||= other.question;
  return mine;
}

/** A log in two: what is ours by its id, with all that has none, and the rest. */
export function parted(whole, isOurs) {
  const part = (isIn) => {
    const only = (map) => new Map([...map].filter(([id]) => isIn(id)));
    const played = new Map();
    for (const [day, ids] of whole.played) {
      if (only(ids).size > 0) played.set(day, only(ids));
    }
    return { ...sound(null), played, clean: only(whole.clean), done: only(whole.done), heard: only(whole.heard) };
  };
  const isOwn = (id) => id === OTHER || isOurs(id);
  return [{ ...part(isOwn), sessions: whole.sessions, week: whole.week, question: whole.question }, part((id) => !isOwn(id))];
}

function inner(map, key) {
  if (!map.has(key)) map.set(key, new Map());
  return map.get(key);
}

export const addPlayed = (id, seconds) =>
  changeLog((mine) => {
    const day = inner(mine.played, today());
    day.set(id, Math.min(MOST_SECONDS, (day.get(id) ?? 0) + Math.round(seconds)));
  });

export const addClean = (id, tempo) =>
  changeLog((mine) => {
    const days = inner(mine.clean, id);
    days.set(today(), Math.max(tempo, days.get(today()) ?? 0));
  });

/** Takes back what was said to be clean today. */
export const dropClean = (id) =>
  changeLog((mine) => {
    const days = mine.clean.get(id);
    days?.delete(today());
    if (days?.size === 0) mine.clean.delete(id);
  });

/** The tempo that was said to be clean today, or null. */
export const cleanToday = (id) => readLog().clean.get(id)?.get(today()) ?? null;

export const setDone = (id, isDone) =>
  changeLog((mine) => {
    if (isDone) mine.done.set(id, today());
    else mine.done.delete(id);
  });

/** Keeps what was heard of an exercise, in place of what was before. */
export function addListened({ id, tempo, spread, accents, louder }) {
  const listened = readListened({ day: today(), tempo, spread, accents, louder });
  if (isId(id) && listened) changeLog((mine) => mine.heard.set(id, listened));
}

/** The name of a session in the log. */
export const sessionName = (week, number) => `${week}.${number}`;

export const setSession = (name, isDone) =>
  changeLog((mine) => {
    if (isDone) mine.sessions.set(name, today());
    else mine.sessions.delete(name);
  });

/** The highest clean tempo of an exercise, or null. */
export function bestTempo(id, from = readLog()) {
  const tempos = [...(from.clean.get(id)?.values() ?? [])];
  return tempos.length > 0 ? Math.max(...tempos) : null;
}

/** Seconds played on these days: of one exercise, or of all. */
export function secondsOn(days, id = null, from = readLog()) {
  let sum = 0;
  for (const day of days) {
    for (const [one, seconds] of from.played.get(day) ?? []) sum += id === null || one === id ? seconds : 0;
  }
  return sum;
}
