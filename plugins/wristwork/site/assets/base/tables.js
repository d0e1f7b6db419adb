// A table wider than the screen scrolls within its frame: the frame can be reached and scrolled with the keyboard.
import { say } from "./words.js";

function reach() {
  for (const frame of document.querySelectorAll(".md-typeset__scrollwrap")) {
    if (frame.scrollWidth > frame.clientWidth) {
      frame.tabIndex = 0;
      frame.setAttribute("role", "region");
      frame.setAttribute("aria-label", say("Table"));
    } else {
      for (const name of ["tabindex", "role", "aria-label"]) frame.removeAttribute(name);
    }
  }
}

addEventListener("resize", reach);
addEventListener("load", reach);
reach();
