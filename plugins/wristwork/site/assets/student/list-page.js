/** The practice list: without a list in the address one is put together, with one it is today's practice. */

import { courseFor } from "./course.js";
import { Composer } from "./list-composer.js";
import { decodeList } from "./list-codec.js";
import { writeDraft } from "./list-draft.js";
import { startLog } from "./log-marks.js";
import { Today } from "./list-today.js";
import { fragment } from "../base/pack.js";
import { startPlayers } from "../player/players.js";

const room = document.querySelector("[data-ww-list]");

async function show() {
  const course = await courseFor(room);
  if (course === null) return;
  const text = fragment();
  if (text === "") {
    room.replaceChildren(new Composer(course).element);
    return;
  }
  const list = decodeList(text);
  const today = new Today(course, list, (items) => {
    writeDraft(items);
    history.replaceState(null, "", location.pathname);
    show();
  });
  room.replaceChildren(today.element);
}

// Exercises come later, each with a player and marks.
startPlayers();
startLog();
window.addEventListener("hashchange", show);
show();
