/** Where a tutor puts a list together. */

import { say, sayAround } from "../base/words.js";
import { button, canShare, Outcome } from "../base/copying.js";
import { find } from "./course.js";
import { FASTEST, SLOWEST } from "../base/limits.js";
import { encodeList, LONGEST_LINK } from "./list-codec.js";
import {
  MOST_ITEMS, MOST_MINUTES, MOST_PASSES, newItem, openList, readLists, WARM_UP_MINUTES, withOpen, writeLists,
} from "./list-draft.js";
import { ListShelf } from "./list-shelf.js";
import { freshId, make, numberField, showNumber } from "../base/elements.js";
import { herePath, published, whereItLeads } from "../base/site.js";
import { NOT_KEPT } from "../base/store.js";

// So few letters are worth a number; before that it only worries.
const FEW_LETTERS = 300;
const UNITS = { minutes: say("minutes"), passes: say("passes") };

export class Composer {
  #course;
  #lists = readLists();
  #shelf = new ListShelf(this.#lists, (lists, isOther) => this.#takeUp(lists, isOther));
  #warmUp = make("div", { class: "ww-list-warm-up" });
  #rows = make("ol", { class: "ww-list-items" });
  #left = make("p", { class: "ww-list-left" });
  #short = make("p", { class: "ww-unseen", role: "status" });
  #outcome = new Outcome();
  #send = [];
  #choice;
  element;

  constructor(course) {
    this.#course = course;
    const copy = () => this.#outcome.copy(this.#link(), say("Link copied. Send it to your student.") + whereItLeads);
    const share = () => this.#outcome.share({ title: say("Today’s practice"), url: this.#link() });
    this.#send = [
      button(say("Copy link"), copy),
      ...(canShare() ? [button(say("Share …"), share)] : []),
      button(say("Open it as your student will"), () => location.assign(`#${this.#code()}`)),
    ];
    this.element = make(
      "div",
      {},
      make(
        "p",
        {},
        say("Put a practice together and send it as a link. The list is in the link itself: nothing is stored or sent anywhere else."),
      ),
      this.#shelf.element,
      this.#warmUp,
      this.#rows,
      this.#makeAdd(),
      this.#left,
      this.#short,
      make("div", { class: "ww-list-send" }, ...this.#send, this.#outcome.element),
    );
    this.#show();
  }

  get #items() {
    return openList(this.#lists).items;
  }

  #code() {
    const { items, warmUp } = openList(this.#lists);
    return encodeList(items, warmUp);
  }

  #link() {
    return published(`${herePath()}#${this.#code()}`).href;
  }

  #makeAdd() {
    const id = freshId("add");
    const choice = make("select", { id }, make("option", { value: "" }, say("Choose an exercise …")));
    this.#choice = choice;
    const groups = new Map();
    const { weeks, exercises } = this.#course;
    const ids = new Set([...weeks.flatMap(({ teaches }) => teaches), ...exercises.keys()]);
    for (const name of ids) {
      const exercise = exercises.get(name);
      if (!groups.has(exercise.from)) groups.set(exercise.from, make("optgroup", { label: exercise.from }));
      groups.get(exercise.from).append(make("option", { value: name }, exercise.title));
    }
    choice.append(...groups.values());
    const add = () => {
      const exercise = find(this.#course, choice.value);
      if (exercise) this.#change([...this.#items, newItem(exercise.id, ...exercise.tempo)]);
      choice.value = "";
    };
    return make("p", { class: "ww-list-add" }, make("label", { for: id }, say("Add")), choice, button(say("Add to the list"), add));
  }

  #change(items) {
    this.#put({ items: items.slice(0, MOST_ITEMS) });
    this.#show();
  }

  #put(part) {
    this.#keep(withOpen(this.#lists, { ...openList(this.#lists), ...part }));
  }

  #keep(lists) {
    this.#lists = lists;
    this.#outcome.report(writeLists(lists) ? "" : NOT_KEPT);
    this.#shelf.show(lists);
  }

  #takeUp(lists, isOther) {
    this.#keep(lists);
    if (isOther) this.#show();
  }

  /** A change that leaves the rows as they are, and the reader where they are typing. */
  #set(place, part) {
    this.#put({ items: this.#items.map((item, at) => (at === place ? { ...item, ...part } : item)) });
    this.#showLeft();
  }

  #show() {
    this.#warmUp.replaceChildren(this.#warmUpFields());
    this.#rows.replaceChildren(...this.#items.map((item, place) => this.#row(item, place)));
    if (this.#items.length === 0) {
      this.#rows.replaceChildren(make("li", { class: "ww-list-none" }, say("Nothing yet. Every exercise has a button “Put on a list”.")));
    }
    this.#showLeft();
  }

  #showLeft() {
    const left = LONGEST_LINK - this.#link().length;
    const isTooLong = left < 0;
    const count = say("{count} of at most {most} exercises.", { count: this.#items.length, most: MOST_ITEMS });
    this.#left.classList.toggle("ww-too-much", isTooLong);
    if (isTooLong) {
      this.#left.textContent = say("The link is {count} letters too long for some chats: shorten a word to the student, or take an exercise out.", { count: -left });
    } else {
      const few = say("{left} of {most} letters of the link are left.", { left, most: LONGEST_LINK });
      this.#left.textContent = left < FEW_LETTERS ? `${count} ${few}` : count;
    }
    this.#tellShort(left);
    for (const each of this.#send) each.disabled = isTooLong || this.#items.length === 0;
  }

  /** Tells those who listen to the page when it gets short, not at every letter. */
  #tellShort(left) {
    const few = left < FEW_LETTERS ? say("Fewer than {few} letters of the link are left.", { few: FEW_LETTERS }) : "";
    const words = left < 0 ? say("The link is too long for some chats.") : few;
    if (this.#short.textContent !== words) this.#short.textContent = words;
  }

  /** Time for the warm-up, and words where it is to be another than the course's. */
  #warmUpFields() {
    const usual = { minutes: this.#course.warmUp.minutes, words: "" };
    const put = (part) => {
      const warmUp = { ...(openList(this.#lists).warmUp ?? usual), ...part };
      const isUsual = warmUp.minutes === usual.minutes && warmUp.words.trim() === "";
      this.#put({ warmUp: isUsual ? null : warmUp });
      this.#showLeft();
    };
    const shown = openList(this.#lists).warmUp ?? usual;
    const set = (minutes) => {
      showNumber(field, minutes);
      put({ minutes });
    };
    const { least, most } = WARM_UP_MINUTES;
    const field = numberField(say("Minutes of warm-up"), { min: least, max: most, set });
    showNumber(field, shown.minutes);
    const area = make("textarea", { rows: 2, maxlength: 600, dir: "auto", "aria-label": say("A warm-up of your own") });
    area.value = shown.words;
    area.placeholder = say("As in the course. Write here what to do instead.");
    area.addEventListener("input", () => put({ words: area.value }));
    return make("fieldset", {}, make("legend", {}, say("Warm-up")), make("p", {}, ...sayAround("For {count} minutes", { count: field })), area);
  }

  #row(item, place) {
    const exercise = find(this.#course, item.id);
    const title = exercise?.title ?? item.id;
    const legend = make("legend", {}, make("bdi", {}, title), make("small", {}, ` ${exercise?.from ?? say("not in this course any more")}`));
    return make(
      "li",
      {},
      make("fieldset", {}, legend, this.#tempos(item, place), this.#amount(item, place), this.#words(item, place)),
      make(
        "div",
        { class: "ww-list-moves" },
        this.#move(say("Up: {title}", { title }), say("↑ Up"), place, place - 1),
        this.#move(say("Down: {title}", { title }), say("↓ Down"), place, place + 1),
        button(say("Take out"), () => this.#takeOut(place), { class: "ww-take-out", "aria-label": say("Take out: {title}", { title }) }),
      ),
    );
  }

  #move(label, words, from, to) {
    const move = () => {
      const items = [...this.#items];
      items.splice(to, 0, ...items.splice(from, 1));
      this.#change(items);
      // At the end of the list this key does nothing any more: then its neighbour has the focus.
      const keys = [...this.#rows.children[to].querySelectorAll(".ww-list-moves button:enabled")];
      (keys.find((key) => key.getAttribute("aria-label") === label) ?? keys[0]).focus();
    };
    return button(words, move, { "aria-label": label, disabled: to < 0 || to >= this.#items.length });
  }

  #takeOut(place) {
    this.#change(this.#items.filter((_, at) => at !== place));
    const row = this.#rows.children[Math.min(place, this.#items.length - 1)];
    (row?.querySelector(".ww-take-out") ?? this.#choice).focus();
  }

  #tempos(item, place) {
    const field = (label, name) => {
      const set = (value) => {
        showNumber(made, value);
        this.#set(place, { [name]: value });
      };
      const made = numberField(label, { min: SLOWEST, max: FASTEST, set });
      showNumber(made, item[name]);
      return made;
    };
    const [from, to] = [field(say("First tempo, beats a minute"), "from"), field(say("Last tempo, beats a minute"), "to")];
    return make("p", {}, ...sayAround("From {from} to {to} beats a minute", { from, to }));
  }

  #amount(item, place) {
    const set = (value) => {
      showNumber(amount, value);
      this.#set(place, { amount: value });
    };
    const amount = numberField(say("How much"), { min: 1, max: MOST_PASSES, set });
    const unit = make("select", { "aria-label": say("Minutes or passes") });
    for (const [value, words] of Object.entries(UNITS)) unit.append(make("option", { value, selected: item.unit === value }, words));
    const limit = () => {
      amount.max = unit.value === "minutes" ? MOST_MINUTES : MOST_PASSES;
    };
    unit.addEventListener("change", () => {
      limit();
      const value = Math.min(Number(amount.value), Number(amount.max));
      showNumber(amount, value);
      this.#set(place, { unit: unit.value, amount: value });
    });
    limit();
    showNumber(amount, item.amount);
    return make("p", {}, ...sayAround("For {amount} {unit}", { amount, unit }));
  }

  #words(item, place) {
    const area = make("textarea", { rows: 2, maxlength: 600, dir: "auto", "aria-label": say("A word to the student") });
    area.value = item.words;
    area.placeholder = say("A word to the student");
    area.addEventListener("input", () => this.#set(place, { words: area.value }));
    return area;
  }
}
