/**
 * Log and list from the time when every course of a host kept them under one key. Each course takes what is its own as
 * soon as a page knows its exercises; what is left is another course's.
 */

import { forget, formerKey, keep, keepOwn, namesOf, ownKey, recall } from "../base/store.js";
import { LIST } from "./list-draft.js";
import { joined, LOG, parted, plainLog, sound } from "./log-store.js";
import { OWN_START } from "../base/dates.js";

const TICKS = "checklist.";

/** Whether an id is, or once was, an exercise of the course. */
const knows = (course) => (id) => course.exercises.has(id) || course.moved.has(id) || course.retired.has(id);

/** Takes over what belongs to this course. Where there is nothing to take over it does nothing. */
export function takeOver(course) {
  const isOurs = knows(course);
  const isLogOver = takeLog(isOurs);
  const isListOver = takeList(isOurs);
  const names = [OWN_START, ...namesOf(formerKey, TICKS)];
  const isKept = names.map(copy).every(Boolean);
  // Dates and ticks name no exercise: they stay for as long as there is a course that has not taken over its own.
  if (isLogOver && isListOver && isKept) for (const name of names) forget(formerKey(name));
}

/** True where nothing is left under the former key. */
function takeLog(isOurs) {
  const former = recall(formerKey(LOG));
  if (former === null) return true;
  const whole = joined(sound(recall(ownKey(LOG))), sound(former));
  const [ours, others] = parted(whole, isOurs);
  if (!keepOwn(LOG, plainLog(ours))) return false;
  const isEmpty = [others.played, others.clean, others.done].every((map) => map.size === 0);
  return leave(LOG, isEmpty ? null : plainLog(others));
}

function takeList(isOurs) {
  const former = recall(formerKey(LIST));
  if (former === null) return true;
  const items = Array.isArray(former) ? former : [];
  const ours = items.filter((item) => isOurs(item?.id));
  if (recall(ownKey(LIST)) === null && !keepOwn(LIST, ours)) return false;
  const others = items.filter((item) => !isOurs(item?.id));
  return leave(LIST, others.length === 0 ? null : others);
}

function leave(name, value) {
  if (value === null) forget(formerKey(name));
  else keep(formerKey(name), value);
  return value === null;
}

function copy(name) {
  const former = recall(formerKey(name));
  return former === null || recall(ownKey(name)) !== null || keepOwn(name, former);
}
