/** Which of the lists is worked on: its name, another one, a new one, one the less. */

import { say } from "../base/words.js";
import { button } from "../base/copying.js";
import { freshId, make } from "../base/elements.js";
import { emptyList, LONGEST_NAME, MOST_LISTS, nameOf, openList, withNew, withOpen, withoutOpen } from "./list-draft.js";

export class ListShelf {
  #lists;
  #change;
  #deleted = null;
  #choice = make("select", { "aria-label": say("Which list"), change: () => this.#open(Number(this.#choice.value)) });
  #name = make("input", { type: "text", id: freshId("list-name"), maxlength: LONGEST_NAME, dir: "auto", input: () => this.#rename() });
  #fresh = button(say("New list"), () => this.#add());
  #delete = button(say("Delete this list"), () => this.#takeAway());
  #words = make("span", { role: "status" });
  #back = button(say("Bring it back"), () => this.#bringBack(), { hidden: true });
  element;

  /** `change` is told of every change, with whether another list is worked on from now. */
  constructor(lists, change) {
    this.#lists = lists;
    this.#change = change;
    const name = make("label", { for: this.#name.id }, say("Name, for you alone"));
    this.element = make(
      "div",
      { class: "ww-list-shelf" },
      make("p", {}, this.#choice, this.#fresh, this.#delete),
      make("p", {}, name, " ", this.#name),
      make("p", {}, this.#words, " ", this.#back),
    );
    this.show(lists);
  }

  show(lists) {
    this.#lists = lists;
    this.#choice.replaceChildren(
      ...lists.lists.map((_, at) => make("option", { value: at, selected: at === lists.open }, nameOf(lists, at))),
    );
    this.#choice.hidden = lists.lists.length === 1;
    this.#fresh.disabled = lists.lists.length >= MOST_LISTS;
    const list = openList(lists);
    const isBare = lists.lists.length === 1 && list.items.length === 0 && !list.name && !list.warmUp;
    this.#delete.hidden = isBare;
    if (!this.#name.matches(":focus")) this.#name.value = list.name;
  }

  #open(at) {
    this.#forget();
    this.#change({ ...this.#lists, open: at }, true);
  }

  #add() {
    this.#forget();
    this.#change(withNew(this.#lists, emptyList()), true);
    this.#name.focus();
  }

  #rename() {
    this.#change(withOpen(this.#lists, { ...openList(this.#lists), name: this.#name.value.trim() }), false);
  }

  #takeAway() {
    const name = nameOf(this.#lists, this.#lists.open);
    this.#deleted = this.#lists;
    this.#change(withoutOpen(this.#lists), true);
    this.#words.textContent = say("“{name}” is deleted.", { name });
    this.#back.hidden = false;
    this.#back.focus();
  }

  #bringBack() {
    const before = this.#deleted;
    this.#forget();
    this.#change(withNew(this.#lists, openList(before)), true);
    this.#delete.focus();
  }

  #forget() {
    this.#deleted = null;
    this.#words.textContent = "";
    this.#back.hidden = true;
  }
}
