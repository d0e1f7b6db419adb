/** On the page that says that a page is not there: exercises whose name comes close to the address, and the search. */

import { say } from "../base/words.js";
import { make } from "../base/elements.js";
import { ROOT } from "../base/site.js";
import { find } from "./finding.js";

/** The last part of the address, as words. */
function asked() {
  const last = location.pathname.split("/").filter(Boolean).at(-1) ?? "";
  return decodeURIComponent(last).replace(/\.html?$/, "").replaceAll(/[-_+%\s]+/g, " ").trim();
}

async function show(place) {
  const answer = await fetch(new URL("x/exercises.json", ROOT));
  const { found, near } = find(await answer.json(), asked());
  const meant = [...found, ...near].slice(0, 5);
  if (!meant.length) return;
  const items = meant.map(({ title, lesson }) => make("li", {}, make("a", { href: new URL(lesson, ROOT), dir: "auto" }, title)));
  place.append(make("p", {}, say("Did you mean this?")), make("ul", {}, ...items));
}

function openSearch() {
  const toggle = /** @type {HTMLInputElement} */ (document.querySelector("[data-md-toggle=search]"));
  const query = /** @type {HTMLInputElement} */ (document.querySelector("[data-md-component=search-query]"));
  toggle.checked = true;
  toggle.dispatchEvent(new Event("change"));
  query.focus();
}

const place = document.querySelector("[data-ww-lost]");
if (document.querySelector("[data-md-component=search-query]")) {
  const search = { type: "button", class: "ww-lost-search", click: openSearch };
  place.after(make("p", {}, make("button", search, say("Search the course"))));
}
show(place).catch(() => {}); // without a signal there is nothing to offer
