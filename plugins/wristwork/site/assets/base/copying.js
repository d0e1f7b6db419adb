/** Copying and sharing, and what to do where the browser refuses. */

import { say } from "./words.js";
import { make } from "./elements.js";

/** A line that says what became of a press, with room for a text to copy by hand. */
export class Outcome {
  #words = make("p", { role: "status" });
  #text = make("textarea", { readonly: true, rows: 4, "aria-label": say("Text to copy"), hidden: true });
  element = make("div", { class: "ww-outcome" }, this.#words, this.#text);

  report(words) {
    this.#text.hidden = true;
    this.#words.textContent = words;
  }

  /** Copies a text and says `done`; shows it, selected, where that does not work. */
  async copy(text, done) {
    try {
      await navigator.clipboard.writeText(text);
      this.report(done);
    } catch {
      this.#words.textContent = say("This browser did not copy it. Here it is, selected, to copy by hand:");
      this.#text.hidden = false;
      this.#text.value = text;
      this.#text.focus();
      this.#text.select();
    }
  }

  /** Opens the phone's own share sheet; closing it is no failure. */
  async share(data) {
    try {
      await navigator.share(data);
      this.report("");
    } catch (error) {
      if (error.name !== "AbortError") this.report(say("Sharing did not work here. Copying may."));
    }
  }
}

export const canShare = () => typeof navigator.share === "function";

export const button = (words, click, more = {}) => make("button", { type: "button", click, ...more }, words);
