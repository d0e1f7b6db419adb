/** Under every exercise: done, and clean at this tempo. Minutes are counted as they are played. */

import { say } from "../base/words.js";
import { button, Outcome } from "../base/copying.js";
import { addClean, addListened, addPlayed, bestTempo, cleanToday, dropClean, onLog, OTHER, readLog, setDone } from "./log-store.js";
import { dayWords } from "../base/dates.js";
import { make } from "../base/elements.js";
import { playerOf } from "../player/player-list.js";
import { tempoOf } from "./sharing.js";
import { NOT_KEPT } from "../base/store.js";

const CLEAN = say("Clean: a minute, even, easy, both heights.");

/** Puts the marks under each exercise of `root` that has none. */
export function mountLog(root = document) {
  inSight ??= watchSight();
  for (const figure of root.querySelectorAll(".ww-exercise[data-ww-id]:not(:has(.ww-mine))")) mount(figure);
}

function mount(figure) {
  const id = figure.dataset.wwId;
  const outcome = new Outcome();
  const title = figure.querySelector(".ww-title")?.textContent ?? id;
  const tell = (isKept) => outcome.report(isKept ? "" : NOT_KEPT);
  const box = make("input", { type: "checkbox", change: () => tell(setDone(id, box.checked)) });
  const clean = button("", () => tell(addClean(id, tempoOf(figure))));
  const best = make("span", { class: "ww-best" });
  const back = button("", () => tell(dropClean(id)), { class: "ww-take-back" });
  const what = make("span", { class: "ww-what-clean" }, CLEAN);
  const done = make("span", {}, say("Done"));
  const show = () => {
    const tempo = bestTempo(id);
    const day = readLog().done.get(id);
    box.checked = day !== undefined;
    done.textContent = day === undefined ? say("Done") : say("Done on {day}", { day: dayWords(day) });
    clean.textContent = say("Clean at {tempo}", { tempo: tempoOf(figure) });
    best.textContent = tempo === null ? "" : say("Best so far: {tempo}", { tempo });
    const now = cleanToday(id);
    back.hidden = now === null;
    back.textContent = now === null ? "" : say("Take back {now}", { now });
    what.hidden = readLog().clean.size > 0; // who has used it once knows
  };
  const row = make("div", { class: "ww-mine", role: "group", "aria-label": say("My practice: {title}", { title }) });
  row.append(make("label", {}, box, done), clean, best, back, outcome.element);
  const acts = figure.querySelector(".ww-acts");
  acts.prepend(row);
  acts.append(what);
  figure.addEventListener("ww-tempo", show);
  figure.addEventListener("ww-state", show);
  onLog(show);
  show();
  shown.set(figure, show);
  inSight.observe(figure);
}

const shown = new WeakMap();
/** Sees to it that the tempo is known for sure: that is when the player has read the exercise. */
let inSight = null;

function watchSight() {
  const seen = (entries) => {
    for (const { isIntersecting, target } of entries) {
      if (!isIntersecting) continue;
      inSight.unobserve(target);
      playerOf(target)?.load().then(shown.get(target), () => {}); // said when it is to be played
    }
  };
  return new IntersectionObserver(seen);
}

/** Marks under the exercises of the page, and minutes counted; to be called once. */
export function startLog() {
  document.addEventListener("ww-played", ({ detail }) => addPlayed(detail.id ?? OTHER, detail.seconds));
  document.addEventListener("ww-listened", ({ detail }) => addListened(detail));
  mountLog();
}
