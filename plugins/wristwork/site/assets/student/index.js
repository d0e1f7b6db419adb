// Sort the index of exercises by the column that is asked for; once more turns the order round. What is clean stands in it.
import { LANGUAGE, say } from "../base/words.js";
import { make } from "../base/elements.js";
import { bestTempo, readLog } from "./log-store.js";

const collator = new Intl.Collator(LANGUAGE, { numeric: true });

function wordsOrNumber(row, column, kind) {
  const cell = row.cells[column];
  const words = cell.dataset.wwValue ?? cell.textContent.trim();
  // What has no number comes last.
  return kind === "number" ? (words === "" ? Infinity : Number(words)) : words;
}

function compare(a, b, kind) {
  if (kind === "number") return a === b ? 0 : a - b;
  return collator.compare(a, b);
}

function sortBy(table, header, kind) {
  const turned = header.getAttribute("aria-sort") === "ascending";
  const body = table.tBodies[0];
  const rows = [...body.rows];
  const column = header.cellIndex;
  rows.sort((a, b) => compare(wordsOrNumber(a, column, kind), wordsOrNumber(b, column, kind), kind) * (turned ? -1 : 1));
  for (const other of header.parentElement.cells) other.removeAttribute("aria-sort");
  header.setAttribute("aria-sort", turned ? "descending" : "ascending");
  body.append(...rows);
}

/** A column with the student's own marks, where there are any. */
function showMarks(table) {
  const { clean, done } = readLog();
  if (clean.size + done.size === 0) return;
  table.tHead.rows[0].append(make("th", { scope: "col", "data-ww-sort": "number" }, say("Clean at")));
  for (const row of table.tBodies[0].rows) {
    const id = row.dataset.wwExercise;
    const tempo = bestTempo(id);
    const mark = tempo === null ? (done.has(id) ? say("done") : "") : String(tempo);
    row.append(make("td", { "data-ww-name": say("Clean at"), "data-ww-value": tempo ?? "" }, mark));
  }
}

for (const table of document.querySelectorAll(".ww-index table")) {
  showMarks(table);
  for (const header of table.querySelectorAll("th[data-ww-sort]")) {
    const click = () => sortBy(table, header, header.dataset.wwSort);
    header.append(make("button", { type: "button", click }, ...header.childNodes));
    if (header.matches("[data-ww-sort=number]:nth-child(2)")) header.setAttribute("aria-sort", "ascending");
  }
}
