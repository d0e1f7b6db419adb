/**
 * How a reader wants the diagrams: hands or feet swapped, rows hidden. The choice stands on the root of the page
 * (`data-ww-hands`, `data-ww-feet`, `data-ww-hide`), where the style sheet sees it, and is kept on this device.
 * What a style sheet cannot do is done here: letters, limbs and words change sides.
 */

import { say } from "../base/words.js";
import { make } from "../base/elements.js";
import { forget, keep, recall } from "../base/store.js";

const SWAPPED = "swapped";
const LIMBS = {
  hands: { key: "ww.hands", data: "wwHands", limb: "hand" },
  feet: { key: "ww.feet", data: "wwFeet", limb: "foot" },
};
// What names a side in words, in the course's language.
const SIDES = {
  hands: new Map([...bothWays(say("right hand"), say("left hand")), ...bothWays(say("right"), say("left"))]),
  feet: new Map(bothWays(say("right foot"), say("left foot"))),
};
const NAMES = [...SIDES.hands.keys(), ...SIDES.feet.keys()].sort((one, other) => other.length - one.length);
// Whole words, the longest first: the right foot is no right hand.
const NAMED = new RegExp(`(?<!\\p{L})(?:${NAMES.map(asPattern).join("|")})(?!\\p{L})`, "gu");
const HIDE = { key: "ww.hide", data: "wwHide" };
const ROWS = {
  count: say("Counts"),
  notation: say("Notation"),
  sticking: say("Sticking"),
  heights: say("Stick heights"),
  names: say("Stroke names"),
};
export const OTHER = { right: "left", left: "right", R: "L", L: "R", r: "l", l: "r" };

const root = document.documentElement;

/** What has been swapped in an element, so that it is swapped once. */
const done = new WeakMap();

/** Is this pair of limbs (`hands` or `feet`) swapped? */
export const isSwapped = (pair) => root.dataset[LIMBS[pair].data] === SWAPPED;

/** Swaps a pair of limbs, or puts it back, on the whole site. */
export function setSwapped(pair, on) {
  choose(LIMBS[pair], on ? SWAPPED : "");
}

/** The rows that are hidden. */
export const hiddenRows = () => (root.dataset[HIDE.data] ?? "").split(" ").filter((row) => row in ROWS);

/** Hides a row of all diagrams, or shows it. */
export function setHidden(row, on) {
  const rows = hiddenRows().filter((other) => other !== row);
  choose(HIDE, (on ? [...rows, row] : rows).join(" "));
}

function choose({ key, data }, value) {
  put(data, value);
  // Where nothing can be kept it holds for this page.
  if (value) keep(key, value);
  else forget(key);
}

function put(data, value) {
  if (value) root.dataset[data] = value;
  else delete root.dataset[data];
}

/** Takes over what was kept on this device; whatever stands on the page already goes first. */
function takeOverKept() {
  for (const { key, data } of [...Object.values(LIMBS), HIDE]) {
    const kept = recall(key);
    if (data in root.dataset || typeof kept !== "string") continue;
    if (data !== HIDE.data) put(data, kept === SWAPPED ? kept : "");
    else put(data, kept.split(" ").filter((row) => row in ROWS).join(" "));
  }
}

/** Lets every diagram in `scope`, its words and what else names a hand say which limb plays after the swaps. */
export function swapSides(scope = document) {
  for (const pair of Object.keys(LIMBS)) {
    for (const element of scope.querySelectorAll(".ww-diagram, .ww-words, .ww-named-hand")) {
      const swapped = done.get(element) ?? { hands: false, feet: false };
      if (swapped[pair] === isSwapped(pair)) continue;
      done.set(element, { ...swapped, [pair]: isSwapped(pair) });
      if (element.matches(".ww-named-hand")) element.textContent = turned(element.textContent, pair);
      else if (element.matches(".ww-words")) swapWords(element, pair);
      else swapDrawing(element, LIMBS[pair]);
      element.dispatchEvent(new CustomEvent("ww-swapped", { bubbles: true, detail: { pair } }));
    }
  }
}

function swapDrawing(diagram, { limb }) {
  for (const element of diagram.querySelectorAll(`[data-limb$="${limb}"]`)) {
    element.dataset.limb = element.dataset.limb.replace(/right|left/, (side) => OTHER[side]);
    if (element.matches(".ww-row-sticking text")) {
      element.textContent = element.textContent.replace(/[RL]/, (letter) => OTHER[letter]);
    }
  }
}

/** Words in which the sides of a pair are exchanged. */
const turned = (words, pair) => words.replace(NAMED, (name) => SIDES[pair].get(name) ?? name);

function swapWords(details, pair) {
  for (const item of details.querySelectorAll("li")) item.textContent = turned(item.textContent, pair);
}

/** @returns {[string, string][]} */
function bothWays(right, left) {
  return [
    [right, left],
    [left, right],
  ];
}

function asPattern(words) {
  return words.replace(/[.*+?^$()|[\]\\]/g, "\\$&");
}

/** The switches for what this diagram has, or null: they hold for all diagrams. */
export function diagramSwitches(diagram) {
  if (!diagram?.querySelector(".ww-beat")) return null;
  const limbs = limbSwitches(diagram);
  const view = make("div", { class: "ww-view" }, rowSwitches(diagram), ...(limbs ? [limbs] : []));
  showChoices(view);
  return view;
}

const rowsOf = (diagram) => Object.keys(ROWS).filter((row) => diagram.querySelector(`.ww-beat .ww-row-${row}`));

function rowSwitches(diagram) {
  return fieldset(say("Rows of the diagram"), rowsOf(diagram).map((row) => [ROWS[row], `row-${row}`, (on) => setHidden(row, !on)]));
}

function limbSwitches(diagram) {
  const choices = [];
  if (diagram.querySelector('[data-limb$="hand"]')) {
    choices.push([say("Left-handed"), "hands", (on) => setSwapped("hands", on)]);
  }
  if (diagram.querySelector('[data-limb$="foot"]')) {
    choices.push([say("Swap feet"), "feet", (on) => setSwapped("feet", on)]);
  }
  return choices.length ? fieldset(say("Sides"), choices) : null;
}

function fieldset(legend, choices) {
  const labels = choices.map(([words, name, chosen]) => {
    const box = make("input", { type: "checkbox", "data-ww-switch": name, change: () => chosen(box.checked) });
    return make("label", { class: "ww-check" }, box, words);
  });
  return make("fieldset", { class: "ww-checks" }, make("legend", {}, legend), ...labels);
}

/** Lets all switches show what is chosen, wherever it was chosen. */
function showChoices(scope = document) {
  const hidden = hiddenRows();
  for (const box of /** @type {NodeListOf<HTMLInputElement>} */ (scope.querySelectorAll("[data-ww-switch]"))) {
    const [kind, row] = box.dataset.wwSwitch.split("-");
    box.checked = kind === "row" ? !hidden.includes(row) : isSwapped(kind);
  }
}

/** Beside each diagram of which no row is left, the way to have them back. */
function tellHidden() {
  for (const note of document.querySelectorAll(".ww-all-hidden")) note.remove();
  const hidden = hiddenRows();
  for (const diagram of document.querySelectorAll(".ww-diagram:has(.ww-beat)")) {
    const isBare = rowsOf(diagram).every((row) => hidden.includes(row));
    diagram.classList.toggle("ww-bare", isBare);
    if (!isBare) continue;
    const show = make("button", { type: "button", click: () => choose(HIDE, "") }, say("Show them again"));
    diagram.after(make("p", { class: "ww-all-hidden", role: "status" }, `${say("All rows of the diagram are hidden.")} `, show));
  }
}

let hasStarted = false;

/** Takes over the reader's choices, and has the diagrams of the page follow them; to be called as often as one likes. */
export function startDiagrams() {
  if (hasStarted) return;
  hasStarted = true;
  takeOverKept();
  swapSides();
  tellHidden();
  new MutationObserver(() => {
    swapSides();
    showChoices();
    tellHidden();
  }).observe(root, { attributeFilter: ["data-ww-hands", "data-ww-feet", "data-ww-hide"] });
}
