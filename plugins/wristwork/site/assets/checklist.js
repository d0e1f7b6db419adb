/** Turns a list of the page into one that can be ticked; the ticks stay on this device. */

import { make } from "./player-dom.js";

/** Makes every check list of the page tickable that is not so yet. */
export function mountChecklists(root = document) {
  for (const place of root.querySelectorAll("[data-ww-checklist]:not([data-ww-mounted])")) {
    place.dataset.wwMounted = "";
    mount(place, `ww.checklist.${place.dataset.wwChecklist}`);
  }
}

function mount(place, key) {
  const ticked = new Set(read(key));
  // An item is remembered by its words: a list that the tutor changes keeps the ticks of what stayed.
  const boxes = [...place.querySelectorAll("li")].map((item) => {
    const name = item.textContent.trim();
    const box = make("input", { type: "checkbox", checked: ticked.has(name), value: name });
    const words = make("span", {}, ...item.childNodes);
    item.replaceChildren(make("label", {}, box, words));
    return box;
  });
  const keep = () => write(key, boxes.filter((box) => box.checked).map((box) => box.value));
  place.addEventListener("change", keep);
  const clear = () => {
    for (const box of boxes) box.checked = false;
    keep();
  };
  const button = (words, act) => make("button", { type: "button", class: "ww-quiet-button", click: act }, words);
  place.append(make("div", { class: "ww-buttons" }, button("Untick all", clear), button("Print this page", () => window.print())));
}

function read(key) {
  try {
    const kept = JSON.parse(localStorage.getItem(key));
    return Array.isArray(kept) ? kept : [];
  } catch {
    return [];
  }
}

function write(key, names) {
  try {
    localStorage.setItem(key, JSON.stringify(names));
  } catch {
    // Nothing is lost but the memory.
  }
}

mountChecklists();
