/** Under every exercise: pass it on, put it on a list. Its link takes along the tempo at which the player stands. */

import { say } from "../base/words.js";
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

// The second line of a message, as the build writes it, and what names a side in it.
const PLAY = new RegExp(
  say("Play {sticking}, {leading}")
    .replace(/[.*+?^$()|[\]\\]/g, "\\$&")
    .replace(/\{(sticking|leading)\}/g, "(?<$1>.*)"),
);
const LEADS = {
  hands: [say("right hand leads"), say("left hand leads")],
  feet: [say("right foot leads"), say("left foot leads")],
};

/** Puts one key, and behind it the ways, under each exercise of `root` that has none. */
export function mountSharing(root = document) {
  for (const figure of root.querySelectorAll(".ww-exercise[data-ww-id]:not(:has(.ww-share))")) mount(figure);
}

function mount(figure) {
  const outcome = new Outcome();
  const title = titleOf(figure);
  const copyLink = () => outcome.copy(linkOf(figure), say("Link copied.") + whereItLeads);
  const copyMessage = () => outcome.copy(messageOf(figure), say("Message copied.") + whereItLeads);
  const share = () => outcome.share({ title, text: messageLines(figure).join("\n"), url: linkOf(figure) });
  const [key, panel] = fold(
    "ww-share",
    say("Share"),
    button(say("Copy link"), copyLink),
    button(say("Copy as a message"), copyMessage),
    ...(canShare() ? [button(say("Share …"), share)] : []),
    ...(canShare() && clipOf(figure) ? [button(say("Share the clip"), () => shareClip(figure, outcome))] : []),
    button(say("Put on a list"), () => putOnList(figure, outcome)),
    ...(document.body.matches(".ww-place-page") ? [button(say("Print a sheet"), () => window.print())] : []),
    outcome.element,
  );
  key.setAttribute("aria-label", say("Share {title}", { title }));
  panel.setAttribute("role", "group");
  panel.setAttribute("aria-label", say("Pass on: {title}", { title }));
  figure.querySelector(".ww-acts").append(key, panel);
}

/** The link to the exercise's short film, where the course has films. @returns {HTMLAnchorElement|null} */
const clipOf = (figure) => figure.querySelector(".ww-clip-file");

/** Hands the film on as a file; where that can't be done, it is saved as by its link. */
async function shareClip(figure, outcome) {
  const link = clipOf(figure);
  try {
    const answer = await fetch(link.href);
    if (!answer.ok) throw new Error(`${answer.url}: ${answer.status}`);
    const clip = new File([await answer.blob()], `${figure.dataset.wwId}.mp4`, { type: "video/mp4" });
    if (navigator.canShare?.({ files: [clip] })) outcome.share({ files: [clip], text: messageOf(figure) });
    else link.click();
  } catch {
    outcome.report(say("The clip can’t be reached without a signal."));
  }
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
  return [title, ...lines.map(forTheReader), say("Start at {tempo} beats a minute", { tempo: tempoOf(figure) })];
}

/** The sticking and who leads, for hands or feet that the reader has swapped. */
function forTheReader(line) {
  const { sticking, leading } = line.match(PLAY)?.groups ?? {};
  const pair = [...LEADS.feet, say("both feet begin")].includes(leading) ? "feet" : "hands";
  if (sticking === undefined || !isSwapped(pair)) return line;
  const other = LEADS[pair][1 - LEADS[pair].indexOf(leading)];
  const turned = say("Play {sticking}, {leading}", {
    sticking: sticking.replace(/\bover\b|[RLrl]/g, (found) => OTHER[found] ?? found),
    leading: LEADS[pair].includes(leading) ? other : leading,
  });
  return pair === "hands" ? say("{turned} (left-handed)", { turned }) : turned;
}

/** Four short lines for a chat. */
export const messageOf = (figure) => [...messageLines(figure), linkOf(figure)].join("\n");

function putOnList(figure, outcome) {
  const all = readLists();
  const list = openList(all);
  const { items } = list;
  const name = all.lists.length > 1 ? `“${nameOf(all, all.open)}”` : "";
  if (items.length >= MOST_ITEMS) {
    outcome.report(
      name
        ? say("A list holds at most {most} exercises, and your list {name} has them.", { most: MOST_ITEMS, name })
        : say("A list holds at most {most} exercises, and your list has them.", { most: MOST_ITEMS }),
    );
    return;
  }
  const added = newItem(figure.dataset.wwId, tempoOf(figure), temposOf(figure)[1]);
  const isKept = writeLists(withOpen(all, { ...list, items: [...items, added] }));
  const beside = items.length === 0 ? say("the first one") : say("with {count} more", { count: items.length });
  const put = name
    ? say("It is on your list {name}, {beside}.", { name, beside })
    : say("It is on your list, {beside}.", { beside });
  outcome.report(isKept ? `${put} ` : NOT_KEPT);
  if (isKept && told.list) {
    outcome.element.firstChild.append(make("a", { href: told.list }, say("Go to the list")));
  }
}
