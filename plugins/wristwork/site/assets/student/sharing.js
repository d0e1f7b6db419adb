/** Under every exercise: pass it on, put it on a list. Its link takes along the tempo at which the player stands. */

import { button, canShare, Outcome } from "../base/copying.js";
import { MOST_ITEMS, nameOf, newItem, openList, readLists, withOpen, writeLists } from "./list-draft.js";
import { make } from "../base/elements.js";
import { isSwapped, OTHER } from "../player/diagram.js";
import { areSame, clicksCode } from "../player/player-clicks.js";
import { temposOf } from "../player/player-data.js";
import { fold } from "../player/player-parts.js";
import { playerOf } from "../player/player-list.js";
import { published, told, whereItLeads } from "../base/site.js";
import { NOT_KEPT } from "../base/store.js";

// What names a side in the second line of a message, after the words in it that only look so.
const SIDES = /\b(?:Play|over|both|hands?|foot|feet|leads|nothing|but|rests)\b|right|left|[RLrl]/g;

/** Puts one key, and behind it the ways, under each exercise of `root` that has none. */
export function mountSharing(root = document) {
  for (const figure of root.querySelectorAll(".ww-exercise[data-ww-id]:not(:has(.ww-share))")) mount(figure);
}

function mount(figure) {
  const outcome = new Outcome();
  const title = titleOf(figure);
  const copyLink = () => outcome.copy(linkOf(figure), `Link copied.${whereItLeads}`);
  const copyMessage = () => outcome.copy(messageOf(figure), `Message copied.${whereItLeads}`);
  const share = () => outcome.share({ title, text: messageLines(figure).join("\n"), url: linkOf(figure) });
  const [key, panel] = fold(
    "ww-share",
    "Share",
    button("Copy link", copyLink),
    button("Copy as a message", copyMessage),
    ...(canShare() ? [button("Share …", share)] : []),
    button("Put on a list", () => putOnList(figure, outcome)),
    ...(document.body.matches(".ww-place-page") ? [button("Print a sheet", () => window.print())] : []),
    outcome.element,
  );
  key.setAttribute("aria-label", `Share ${title}`);
  panel.setAttribute("role", "group");
  panel.setAttribute("aria-label", `Pass on: ${title}`);
  figure.querySelector(".ww-acts").append(key, panel);
}

const titleOf = (figure) => figure.querySelector(".ww-title")?.textContent ?? figure.dataset.wwId;

/** The tempo of the player, or where the exercise starts. */
export const tempoOf = (figure) => playerOf(figure)?.tempo ?? temposOf(figure)[0];

/** The exercise's lasting address, with the tempo, and the click where it is another than the exercise's. */
export function linkOf(figure) {
  const player = playerOf(figure);
  const click = player && !areSame(player.clicks, player.ownClicks) ? `&click=${clicksCode(player.clicks)}` : "";
  const bars = player?.part?.bars ? `&bars=${player.part.bars}` : "";
  return published(`x/${figure.dataset.wwId}/?tempo=${tempoOf(figure)}${click}${bars}`).href;
}

function messageLines(figure) {
  const [title, ...lines] = (figure.dataset.wwMessage ?? titleOf(figure)).split("\n");
  return [title, ...lines.map(forTheReader), `Start at ${tempoOf(figure)} beats a minute`];
}

/** The sticking and who leads, for hands or feet that the reader has swapped. */
function forTheReader(line) {
  const pair = /\b(foot|feet)\b/.test(line) ? "feet" : "hands";
  if (!isSwapped(pair)) return line;
  const turned = line.replace(SIDES, (found) => OTHER[found] ?? found);
  return pair === "hands" ? `${turned} (left-handed)` : turned;
}

/** Four short lines for a chat. */
export const messageOf = (figure) => [...messageLines(figure), linkOf(figure)].join("\n");

function putOnList(figure, outcome) {
  const all = readLists();
  const list = openList(all);
  const { items } = list;
  const which = all.lists.length > 1 ? ` “${nameOf(all, all.open)}”` : "";
  if (items.length >= MOST_ITEMS) {
    outcome.say(`A list holds at most ${MOST_ITEMS} exercises, and your list${which} has them.`);
    return;
  }
  const added = newItem(figure.dataset.wwId, tempoOf(figure), temposOf(figure)[1]);
  const isKept = writeLists(withOpen(all, { ...list, items: [...items, added] }));
  const beside = items.length === 0 ? "the first one" : `with ${items.length} more`;
  outcome.say(isKept ? `It is on your list${which}, ${beside}. ` : NOT_KEPT);
  if (isKept && told.list) {
    outcome.element.firstChild.append(make("a", { href: told.list }, "Go to the list"));
  }
}
