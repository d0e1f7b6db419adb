/** "Keep the whole course on this device": how much it is, how far it has come, and how to be rid of it. */

import { decimal, say } from "../base/words.js";
import { button, Outcome } from "../base/copying.js";
import { keepFiles, keepsAnything, keepWhole, readList } from "../base/keeping.js";
import { make } from "../base/elements.js";
import { ROOT } from "../base/site.js";

export class Keeping {
  #outcome = new Outcome();
  #bar = make("progress", { hidden: true, "aria-label": say("How much of the course is kept") });
  #size = make("p", {}, "");
  #key = button(say("Keep the whole course on this device"), () => this.#keep());
  elements;

  constructor() {
    const drop = button(say("Take the kept course off this device"), () => this.#drop());
    this.elements = [
      make("h2", {}, say("Without a signal")),
      make("p", {}, say("What you have opened, and the current week, are kept on this device and work without a signal.")),
      this.#size,
      make("div", { class: "ww-list-send" }, this.#key, drop, this.#bar, this.#outcome.element),
    ];
    if (!keepsAnything()) {
      this.#key.disabled = true;
      this.#size.textContent = say("This browser, or this course, keeps nothing for later.");
    } else {
      this.#showSize();
    }
  }

  async #showSize() {
    try {
      const { bytes } = await readList("offline/size.json");
      this.#size.textContent = say("The whole course is {size}.", { size: sizeWords(bytes) });
    } catch {
      this.#size.textContent = say("How much the whole course is can be seen when there is a signal.");
    }
  }

  async #keep() {
    this.#key.disabled = true;
    this.#bar.hidden = false;
    this.#outcome.report("");
    try {
      const list = await readList("offline.json");
      const paths = Object.keys(list.files);
      await keepWhole(list);
      this.#bar.max = paths.length;
      const failed = await keepFiles(list, paths, (done) => (this.#bar.value = done));
      const words = say("The whole course is kept on this device.");
      this.#outcome.report(failed.length === 0 ? words : say("{count} of {all} files could not be kept: try again with a signal, or free some space.", { count: failed.length, all: paths.length }));
    } catch {
      this.#outcome.report(say("It could not be kept: there is no signal, or this browser has no room for it."));
    }
    this.#bar.hidden = true;
    this.#key.disabled = false;
  }

  async #drop() {
    try {
      for (const name of await caches.keys()) {
        if (name.startsWith(`ww:${ROOT.pathname}:`)) await caches.delete(name);
      }
      const registration = await navigator.serviceWorker?.getRegistration(ROOT);
      await registration?.unregister();
      this.#outcome.report(say("Nothing of the course is kept any more. What you open from now on will be."));
    } catch {
      this.#outcome.report(say("This browser keeps nothing for this course."));
    }
  }
}

export function sizeWords(bytes) {
  const megabytes = bytes / 1_000_000;
  return megabytes < 10 ? say("{megabytes} MB", { megabytes: decimal(Math.max(0.1, megabytes), 1) }) : say("{megabytes} MB", { megabytes: Math.round(megabytes) });
}
