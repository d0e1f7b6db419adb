/** The course as data, for the student's own pages. */

import { say } from "../base/words.js";
import { make } from "../base/elements.js";
import { takeOver } from "./former-keys.js";
import { ROOT } from "../base/site.js";

/** The course, with its exercises by id; a moved id leads to where it went. */
export async function readCourse() {
  const answer = await fetch(new URL("course.json", ROOT));
  if (!answer.ok) throw new Error(`${answer.url}: ${answer.status}`);
  const data = await answer.json();
  const [exercises, moved] = [data.exercises, data.moved].map((each) => new Map(Object.entries(each)));
  const course = { ...data, exercises, moved, retired: new Set(data.retired) };
  takeOver(course);
  return course;
}

/** The course for a room of the page; where it can't be read the room says so, and it is null. */
export async function courseFor(room) {
  try {
    return await readCourse();
  } catch {
    room.replaceChildren(make("p", { role: "alert" }, say("The course can’t be reached, and it is not kept on this device yet.")));
    return null;
  }
}

/** An exercise with its id, by an id of now or of before; null where the course has none. */
export function find(course, id) {
  const now = course.moved.get(id) ?? id;
  const exercise = course.exercises.get(now);
  return exercise ? { id: now, ...exercise } : null;
}

/** @param {{page: string}} week a week by its page's address from the site's root */
export const placeOfWeek = ({ page }) => new URL(page, ROOT);

export const placeOf = (id) => new URL(`x/${id}/`, ROOT);

/** An exercise's figure from its own page, with a player; the page is kept for when there is no signal. */
export async function readFigure(id) {
  const place = placeOf(id);
  const answer = await fetch(place);
  if (!answer.ok) throw new Error(`${answer.url}: ${answer.status}`);
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const figure = document.adoptNode(page.querySelector("figure.ww-exercise"));
  figure.dataset.wwSrc = place.href;
  for (const link of figure.querySelectorAll("a")) link.href = new URL(link.getAttribute("href"), place).href;
  figure.querySelector("h1")?.replaceWith(asHeading(figure.querySelector("h1")));
  return figure;
}

/** The page has a first heading already. */
const asHeading = (title) => make("h2", { class: title.className, dir: "auto" }, ...title.childNodes);
