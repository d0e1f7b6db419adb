// The search finds exercises by title, and by sticking typed as in the source. The theme's own search looks for words
// and shows pages first; an accent mark is no word to it.
import { make } from "../base/elements.js";
import { ROOT } from "../base/site.js";

const STICKING = /^[RLBrlz0-9(){}>^&./|\s…–-]+$/;
const MOST = 20;

const bare = (text) => text.replace(/[\s|]+/g, "").replaceAll("…", "...").replaceAll("–", "-");

// A stroke and one mark are enough: a drag is typed llR.
const looksLikeSticking = (text) => text.length > 1 && STICKING.test(text) && /[RLB]/.test(text);

let known;

async function exercises() {
  known ??= fetch(new URL("x/exercises.json", ROOT)).then((answer) => answer.json());
  return known;
}

// Grouped as typed comes first; then, the shorter the exercise, the more of it is what was typed.
function bySticking(all, typed) {
  const wanted = bare(typed);
  const rank = ({ sticking }) => (sticking.includes(typed) ? 0 : 1e6) + sticking.length;
  return all.filter(({ sticking }) => bare(sticking).includes(wanted)).sort((a, b) => rank(a) - rank(b));
}

// Every word typed begins a word of the title, the last one perhaps not yet to its end.
function byTitle(all, typed) {
  const words = typed.toLocaleLowerCase().split(/[\s-]+/);
  return all.filter(({ title }) => {
    const held = title.toLocaleLowerCase().split(/[\s-]+/);
    return words.every((word) => held.some((one) => one.startsWith(word)));
  });
}

function item({ title, sticking, lesson, where }) {
  const found = [make("h1", { dir: "auto" }, title), make("p", {}, `${where} · ${sticking}`)];
  const article = make("article", { class: "md-search-result__article md-typeset" }, ...found);
  const link = make("a", { class: "md-search-result__link", href: new URL(lesson, ROOT) }, article);
  return make("li", { class: "md-search-result__item" }, link);
}

function words(count, asked) {
  if (count === 0) return asked === "sticking" ? "No exercise has this sticking" : "";
  const exercises = count === 1 ? "1 exercise" : `${count} exercises`;
  const shown = count > MOST ? `, ${MOST} of them here` : "";
  return `${exercises} ${asked === "sticking" ? "with this sticking" : "by this name"}${shown}`;
}

async function search(result, query) {
  const typed = query.value.trim();
  const asked = looksLikeSticking(typed) ? "sticking" : "title";
  result.classList.toggle("ww-by-sticking", asked === "sticking");
  const all = typed.length > 1 ? await exercises() : [];
  if (query.value.trim() !== typed) return;
  const found = asked === "sticking" ? bySticking(all, typed) : byTitle(all, typed);
  const [status, list] = result.querySelectorAll(".ww-found-status, .ww-found");
  status.textContent = words(found.length, asked);
  list.replaceChildren(...found.slice(0, MOST).map(item));
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
