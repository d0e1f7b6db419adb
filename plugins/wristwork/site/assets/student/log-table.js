/** A week's practice as a table with small charts: on the student's screen, and from a link on the tutor's. */

import { say, sayCount } from "../base/words.js";
import { find, placeOf } from "./course.js";
import { dayWords } from "../base/dates.js";
import { draw, make } from "../base/elements.js";

/**
 * @param {import("./report-codec.js").Report} report
 * @param {boolean} isFolded only what was practised and what comes next are in sight, the rest is a touch away
 */
export function logTable(course, report, isFolded = false) {
  const isBegun = ({ isDone, best, minutes }) => isDone || best !== null || minutes > 0;
  const next = report.rows.find((row) => !isBegun(row));
  const isShown = (row) => !isFolded || isBegun(row) || row === next;
  const rest = report.rows.filter((row) => !isShown(row));
  const fold = make("details", { class: "ww-disclosure" }, make("summary", {}, say("The rest of week {week}", { week: report.week })), table(course, rest));
  return make("div", {}, dayBars(report.minutes), table(course, report.rows.filter(isShown)), ...(rest.length > 0 ? [fold] : []));
}

function table(course, rows) {
  const heads = [say("Exercise"), say("Done"), say("Clean at"), say("Minutes"), say("Clean tempos by day")];
  return make(
    "table",
    { class: "ww-log-table" },
    make("thead", {}, make("tr", {}, ...heads.map((head) => make("th", { scope: "col" }, head)))),
    make("tbody", {}, ...rows.map((row) => tableRow(course, row))),
  );
}

function tableRow(course, { id, isDone, doneOn, best, minutes, tempos }) {
  const exercise = find(course, id);
  const title = exercise ? make("a", { href: placeOf(exercise.id) }, make("bdi", {}, exercise.title)) : id;
  const cell = (name, ...inside) => make("td", { "data-ww-name": name }, ...inside);
  return make(
    "tr",
    {},
    make("th", { scope: "row" }, title),
    cell(say("Done"), isDone ? (doneOn ? dayWords(doneOn) : say("yes")) : say("not yet")),
    cell(say("Clean at"), best === null ? say("not yet") : String(best)),
    cell(say("Minutes"), String(minutes)),
    cell(say("Clean tempos by day"), chart(tempos)),
  );
}

/** The clean tempos over the days as a line; said in words, too. */
function chart(tempos) {
  if (tempos.length === 0) return "–";
  const words = say("{head}: {rest}", { head: sayCount("One day", "{count} days", tempos.length), rest: tempos.join(", ") });
  const [low, high] = [Math.min(...tempos), Math.max(...tempos)];
  const x = (at) => 4 + (at * 92) / Math.max(1, tempos.length - 1);
  const y = (tempo) => (high === low ? 14 : 24 - ((tempo - low) * 20) / (high - low));
  const points = tempos.map((tempo, at) => `${x(at).toFixed(1)} ${y(tempo).toFixed(1)}`);
  const picture = draw("svg", { viewBox: "0 0 100 28", class: "ww-log-chart", role: "img", "aria-label": words });
  if (points.length > 1) picture.append(draw("path", { d: `M${points.join("L")}` }));
  for (const point of points) {
    const [cx, cy] = point.split(" ");
    picture.append(draw("circle", { cx, cy, r: 2.6 }));
  }
  return make("span", { class: "ww-log-chart-room" }, picture, make("small", { "aria-hidden": "true" }, low === high ? `${low}` : say("{low} to {high}", { low, high })));
}

/** Minutes of the last days as bars, today last. */
function dayBars(minutes) {
  const total = minutes.reduce((sum, each) => sum + each, 0);
  const most = Math.max(1, ...minutes);
  const words = say("Minutes by day, the latest last: {minutes}", { minutes: minutes.join(", ") });
  const picture = draw("svg", { viewBox: `0 0 ${minutes.length * 14} 44`, class: "ww-day-bars", role: "img", "aria-label": words });
  for (const [at, each] of minutes.entries()) {
    const height = Math.max(1, (each * 38) / most);
    picture.append(draw("rect", { x: at * 14 + 2, y: 42 - height, width: 10, height, rx: 1.5 }));
  }
  return make("figure", { class: "ww-log-days" }, picture, make("figcaption", {}, say("{total} minutes in the last {days} days", { total, days: minutes.length })));
}
