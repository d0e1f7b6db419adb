/**
 * The practice player: every exercise on a page gets one, in its `.ww-controls`.
 *
 * For other scripts: `mountPlayers`, `playerOf`, a player's `tempo`, `setTempo`, `play` and `stop`, and three
 * events on the figure, which bubble: `ww-tempo` ({id, tempo}) when the tempo changes, `ww-state` ({id, state}),
 * and `ww-played` ({id, seconds, tempo}) when a playing is over (a count-in does not count).
 */

import { readNumber } from "../base/player-dom.js";
import { Player } from "./player-figure.js";
import { Shelf } from "./player-audio.js";

const NEAR = "800px";

const players = new Map();
const shelves = new Map();

/**
 * Puts a player into each exercise under `root` that has none.
 *
 * @param {ParentNode} root
 * @param {{sounds?: string|URL}} options `sounds`: the folder of the one-shots, where it is not the site's own
 * @returns {Player[]} the new players
 */
export function mountPlayers(root = document, { sounds = new URL("../sounds/", import.meta.url) } = {}) {
  const figures = [...root.querySelectorAll(".ww-exercise:has(> .ww-controls)")].filter((one) => !players.has(one));
  const made = figures.map((figure) => new Player(figure, shelfAt(new URL(sounds, document.baseURI))));
  for (const player of made) {
    players.set(player.figure, player);
    near.observe(player.figure);
  }
  openAtTempo(made);
  return made;
}

/** The player of a figure, if it has one. */
export function playerOf(figure) {
  return players.get(figure) ?? null;
}

/** All players, in the order of the page. */
export function playersOnPage() {
  return [...document.querySelectorAll(".ww-exercise")].map(playerOf).filter(Boolean);
}

const near = new IntersectionObserver(
  (entries) => {
    for (const { isIntersecting, target } of entries) {
      if (!isIntersecting) continue;
      near.unobserve(target);
      players.get(target).load().catch(() => {}); // said when it is to be played
    }
  },
  { rootMargin: NEAR },
);

function shelfAt(folder) {
  if (!shelves.has(folder.href)) shelves.set(folder.href, new Shelf(folder));
  return shelves.get(folder.href);
}

/** `?tempo=72` is meant for the exercise that the address names, or for the only one. */
function openAtTempo(made) {
  const tempo = readNumber(new URLSearchParams(location.search).get("tempo"));
  const meant = made.find(({ figure }) => figure.id && `#${figure.id}` === location.hash);
  const player = meant ?? (document.querySelectorAll(".ww-exercise").length === 1 ? made[0] : null);
  if (tempo !== null && player) player.setTempo(tempo);
}

function stopAll(why) {
  for (const player of players.values()) player.stop(why);
}

document.addEventListener("visibilitychange", () => {
  if (document.hidden) stopAll("It stopped when this page went out of sight. Press Play to start again.");
});
window.addEventListener("pagehide", () => stopAll(""));

// A preview counts as a player, too: only one thing sounds at a time. (`play` does not bubble.)
document.addEventListener(
  "play",
  ({ target }) => {
    stopAll("");
    for (const other of document.querySelectorAll("audio")) {
      if (other !== target) other.pause();
    }
  },
  true,
);
document.addEventListener("ww-state", ({ target, detail }) => {
  if (detail.state !== "starting") return;
  for (const preview of document.querySelectorAll("audio")) preview.pause();
  for (const [figure, player] of players) {
    if (figure !== target) player.stop();
  }
});

new MutationObserver(() => {
  for (const player of players.values()) player.handsChanged();
}).observe(document.documentElement, { attributeFilter: ["data-ww-hands", "data-ww-feet"] });

mountPlayers();

// So the stand of one exercise's own page leads to that of the next.
if (location.hash === "#stand" && players.size) {
  import("./stand.js").then(({ openStand }) => openStand(playersOnPage()[0]));
}
