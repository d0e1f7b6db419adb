// Sort the index of exercises by the column that is asked for; once more turns the order round.
import { make } from "../base/elements.js";

const collator = new Intl.Collator(document.documentElement.lang || "en", { numeric: true });

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

for (const table of document.querySelectorAll(".ww-index table")) {
  for (const header of table.querySelectorAll("th[data-ww-sort]")) {
    const click = () => sortBy(table, header, header.dataset.wwSort);
    header.append(make("button", { type: "button", click }, ...header.childNodes));
    if (header.textContent === "Week") header.setAttribute("aria-sort", "ascending");
  }
}
