// The search finds exercises by title, and by sticking typed as in the source. The theme's own search looks for words
// and shows pages first; an accent mark is no word to it.
import { say, sayCount } from "../base/words.js";
import { make } from "../base/elements.js";
import { ROOT } from "../base/site.js";
import { find } from "./finding.js";

const MOST = 20;

let known;

async function exercises() {
  known ??= fetch(new URL("x/exercises.json", ROOT)).then((answer) => answer.json());
  return known;
}

function item({ title, sticking, lesson, where }) {
  const found = [make("h1", { dir: "auto" }, title), make("p", {}, `${where} · ${sticking}`)];
  const article = make("article", { class: "md-search-result__article md-typeset" }, ...found);
  const link = make("a", { class: "md-search-result__link", href: new URL(lesson, ROOT) }, article);
  return make("li", { class: "md-search-result__item" }, link);
}

/** @param {import("./finding.js").Answer} answer */
function words({ bySticking, found, near }) {
  const count = found.length;
  if (count === 0) {
    const none = bySticking ? say("No exercise has this sticking.") : near.length ? say("No exercise has this name.") : "";
    return near.length ? say("{none} Close to it:", { none }) : none;
  }
  const told = bySticking
    ? sayCount("1 exercise with this sticking", "{count} exercises with this sticking", count)
    : sayCount("1 exercise by this name", "{count} exercises by this name", count);
  return count > MOST ? say("{told}, {most} of them here", { told, most: MOST }) : told;
}

async function search(result, query) {
  const typed = query.value.trim();
  const all = typed.length > 1 ? await exercises() : [];
  if (query.value.trim() !== typed) return;
  const answer = find(all, typed);
  result.classList.toggle("ww-by-sticking", answer.bySticking);
  const [status, list] = result.querySelectorAll(".ww-found-status, .ww-found");
  status.textContent = typed.length > 1 ? words(answer) : "";
  list.replaceChildren(...[...answer.found, ...answer.near].slice(0, MOST).map(item));
}

const query = /** @type {HTMLInputElement|null} */ (document.querySelector("[data-md-component=search-query]"));
const result = document.querySelector("[data-md-component=search-result]");
if (query && result) {
  const status = make("div", { class: "ww-found-status md-search-result__meta", role: "status" });
  result.prepend(status, make("ol", { class: "ww-found md-search-result__list" }));
  query.addEventListener("input", () => search(result, query));
  query.form?.addEventListener("reset", () => setTimeout(() => search(result, query)));
  if (query.value) search(result, query);
}
