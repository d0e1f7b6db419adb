/** My practice: the student's own page; with a report in the address, what a student shows their tutor. */

import { say } from "../base/words.js";
import { courseFor } from "./course.js";
import { LogPage } from "./log-view.js";
import { logTable } from "./log-table.js";
import { fragment } from "../base/pack.js";
import { make } from "../base/elements.js";
import { decodeReport } from "./report-codec.js";

const room = document.querySelector("[data-ww-log]");

async function show() {
  const course = await courseFor(room);
  if (course === null) return;
  const text = fragment();
  room.replaceChildren(text.length > 12 ? shown(course, decodeReport(text)) : new LogPage(course).element);
}

/** A student's week on the tutor's screen; nothing of it is kept. */
function shown(course, report) {
  const own = make("p", {}, make("a", { href: location.pathname }, say("My own practice")));
  if (!report.isReport) {
    const words = say("This link holds no practice that can be read. Ask for it to be sent once more.");
    return make("div", {}, make("p", { role: "alert", class: "ww-list-trouble" }, words), own);
  }
  const trouble = [];
  if (report.isNewer) trouble.push(say("This link was made by a newer version of the site."));
  if (report.lost > 0) trouble.push(say("The link was damaged on its way: {lost} of its lines could not be read.", { lost: report.lost }));
  const question = report.question.trim() === "" ? [] : [make("h3", {}, say("The question")), make("blockquote", { dir: "auto" }, report.question)];
  return make(
    "div",
    {},
    make("p", {}, say("A student shows you this. It is in the link alone, and nothing of it is kept here.")),
    ...(trouble.length > 0 ? [make("p", { role: "alert", class: "ww-list-trouble" }, trouble.join(" "))] : []),
    make("h2", {}, say("Week {week}", { week: report.week })),
    logTable(course, report),
    ...question,
    own,
  );
}

window.addEventListener("hashchange", show);
show();
