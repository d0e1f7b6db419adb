/** Turns a list of the page into one that can be ticked; the ticks stay on this device. */

import { say } from "../base/words.js";
import { make } from "../base/elements.js";
import { keepOwn, recallOwn } from "../base/store.js";

/** Makes every check list of the page tickable that is not so yet. */
export function mountChecklists(root = document) {
  for (const place of root.querySelectorAll("[data-ww-checklist]:not([data-ww-mounted])")) {
    place.dataset.wwMounted = "";
    mount(place, `checklist.${place.dataset.wwChecklist}`);
  }
}

function mount(place, key) {
  const kept = recallOwn(key);
  const ticked = new Set(Array.isArray(kept) ? kept : []);
  // An item is remembered by its words: a list that the tutor changes keeps the ticks of what stayed.
  const boxes = [...place.querySelectorAll("li")].map((item) => {
    const name = item.textContent.trim();
    const box = make("input", { type: "checkbox", checked: ticked.has(name), value: name });
    const words = make("span", {}, ...item.childNodes);
    item.replaceChildren(make("label", {}, box, words));
    return box;
  });
  const remember = () => keepOwn(key, boxes.filter((box) => box.checked).map((box) => box.value));
  place.addEventListener("change", remember);
  const clear = () => {
    for (const box of boxes) box.checked = false;
    remember();
  };
  const button = (words, act) => make("button", { type: "button", class: "ww-quiet-button", click: act }, words);
  place.append(make("div", { class: "ww-buttons" }, button(say("Untick all"), clear), button(say("Print this page"), () => window.print())));
}

mountChecklists();
