/** What a practice holds: warm-up, exercises with breaks between them, ease-off. */

import { clockFace, sayCount } from "../base/words.js";
import { find } from "./course.js";

const SECONDS = 60;

/**
 * The steps of a list. No stretch of playing is longer than the course allows without a break.
 *
 * @typedef {{
 *   kind: "warm-up"|"exercise"|"break"|"ease-off", seconds: number,
 *   words?: string, item?: import("./list-draft.js").Item, exercise?: object,
 * }} Step `words` say how to warm up where the course's own way is not meant
 * @param {import("./list-draft.js").WarmUp|null} warmUp the tutor's own, or the course's
 * @returns {Step[]}
 */
export function stepsOf(course, items, warmUp = null) {
  const { minutes, words } = warmUp ?? { minutes: course.warmUp.minutes, words: "" };
  /** @type {Step[]} */
  const steps = [{ kind: "warm-up", seconds: minutes * SECONDS, words: words.trim() }];
  let played = minutes * SECONDS;
  for (const item of items) {
    const exercise = find(course, item.id);
    const seconds = secondsOf(item, exercise);
    if (played > 0 && played + seconds > course.breakEvery * SECONDS) {
      steps.push({ kind: "break", seconds: course.breakMinutes * SECONDS });
      played = 0;
    }
    steps.push({ kind: "exercise", seconds, item, exercise });
    played += seconds;
  }
  steps.push({ kind: "ease-off", seconds: course.easeOff.minutes * SECONDS });
  return steps;
}

/** Passes last as long as they take at the first tempo. */
function secondsOf(item, exercise) {
  if (item.unit === "minutes") return item.amount * SECONDS;
  return Math.ceil((item.amount * (exercise?.beats ?? 4) * SECONDS) / item.from);
}

export function minutesWords(seconds) {
  const minutes = Math.max(1, Math.round(seconds / SECONDS));
  return sayCount("1 minute", "{count} minutes", minutes);
}

/** The same to the second, for what is to add up: `2 minutes`, `2:30`. */
export const exactWords = (seconds) => (seconds % SECONDS ? clockFace(seconds) : minutesWords(seconds));
