/** The exercise of a figure as data, of the very version that is drawn in it. */

import { say } from "../base/words.js";

/** The page shows one version and the site holds another: what would be heard is not what is seen. */
export class OtherVersion extends Error {
  words =
    say("This exercise has changed since this page was made. Load the page again to see and hear it as it is now; without a signal, wait until there is one.");
}

/**
 * What `exercise.json` holds, as far as a player reads it.
 *
 * @typedef {object} Exercise
 * @property {number} beats
 * @property {number[][]} [buzzes]
 * @property {import("./player-clicks.js").Clicks} [click]
 * @property {boolean} loop
 * @property {string} [motion]
 * @property {import("./player-schedule.js").WrittenPace[]} [paces]
 * @property {number[][]} [passages]
 * @property {number} [pickup]
 * @property {number} repeat
 * @property {object[]} strokes
 * @property {{start: number, goal: number, step: number}} tempo
 * @property {number[]} time
 * @property {string} [version]
 */

/**
 * Where an exercise starts and where it goes: the page says that itself, long before the data is there.
 *
 * @param {HTMLElement} figure
 * @returns {number[]} start and goal
 */
export const temposOf = (figure) => (figure.dataset.wwTempos ?? "60 60").split(" ").map(Number);

/**
 * An example carries its data, an exercise has it in its own place.
 *
 * @param {HTMLElement} figure
 * @returns {Promise<Exercise>} rejects with `OtherVersion` where the data is not of what is drawn
 */
export async function readExercise(figure) {
  const inPage = figure.querySelector("script.ww-data");
  if (inPage) return JSON.parse(inPage.textContent);
  const place = new URL(figure.dataset.wwSrc || ".", document.baseURI);
  // What a browser has kept of the data may be older than the page: then it is asked for once more.
  for (const cache of /** @type {const} */ (["default", "reload"])) {
    const answer = await fetch(new URL("exercise.json", place), { cache });
    if (!answer.ok) throw new Error(`${answer.url}: ${answer.status}`);
    const exercise = await answer.json();
    if (!figure.dataset.wwVersion || exercise.version === figure.dataset.wwVersion) return exercise;
  }
  throw new OtherVersion();
}
