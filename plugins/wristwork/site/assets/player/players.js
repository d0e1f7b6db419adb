/**
 * The practice player: every exercise on a page gets one, in its `.ww-controls`.
 *
 * For other scripts: `mountPlayers`, `playerOf` (of `player-list.js`), a player's `tempo`, `setTempo`, `play` and `stop`, and three
 * events on the figure, which bubble: `ww-tempo` ({id, tempo}) when the tempo changes, `ww-state` ({id, state}),
 * and `ww-played` ({id, seconds, tempo}) when a playing is over (a count-in does not count).
 */

import { say } from "../base/words.js";
import { readNumber } from "../base/elements.js";
import { startDiagrams } from "./diagram.js";
import { Player } from "./player-figure.js";
import { makers, players, playersOnPage } from "./player-list.js";
import { Shelf } from "./player-audio.js";

const NEAR = "800px";

/** Has a player read its exercise when it comes near. */
let near = null;
const shelves = new Map();

/**
 * Puts a player into each exercise under `root` that has none.
 *
 * @param {ParentNode} root
 * @param {{sounds?: string|URL}} options `sounds`: the folder of the one-shots, where it is not the site's own
 * @returns {Player[]} the new players
 */
export function mountPlayers(root = document, { sounds = new URL("../sounds/", import.meta.url) } = {}) {
  near ??= watchNear();
  const figures = [...root.querySelectorAll(".ww-exercise:has(> .ww-controls)")].filter((one) => !players.has(one));
  const made = figures.map((figure) => new Player(figure, shelfAt(new URL(sounds, document.baseURI))));
  for (const player of made) {
    players.set(player.figure, player);
    near.observe(player.figure);
  }
  openAtTempo(made);
  return made;
}

function shelfAt(folder) {
  if (!shelves.has(folder.href)) shelves.set(folder.href, new Shelf(folder));
  return shelves.get(folder.href);
}

/** `?tempo=72&click=2.4` is meant for the exercise that the address names, or for the only one. */
function openAtTempo(made) {
  const asked = new URLSearchParams(location.search);
  const tempo = readNumber(asked.get("tempo"));
  const meant = made.find(({ figure }) => figure.id && `#${figure.id}` === location.hash);
  const player = meant ?? (document.querySelectorAll(".ww-exercise").length === 1 ? made[0] : null);
  if (tempo !== null && player) player.setTempo(tempo);
  if (asked.get("click") !== null && player) player.setClicks(asked.get("click"));
  const bars = asked.get("bars");
  if (bars !== null && player) import("./player-part.js").then(({ openBars }) => openBars(player, bars));
}

/** A link in a lesson that asks for a click (`?click=2.4#an-exercise`) sets it, without loading the page anew. */
function followClicks(event) {
  const link = event.target.closest?.("a[href*='click=']");
  const figure = link && link.pathname === location.pathname && document.getElementById(link.hash.slice(1));
  const player = figure && players.get(figure);
  if (!player) return;
  event.preventDefault();
  const asked = new URLSearchParams(link.search);
  player.setClicks(asked.get("click"));
  const tempo = readNumber(asked.get("tempo"));
  if (tempo !== null) player.setTempo(tempo);
  location.hash = link.hash;
}

function watchNear() {
  const seen = (entries) => {
    for (const { isIntersecting, target } of entries) {
      if (!isIntersecting) continue;
      near.unobserve(target);
      players.get(target).load().catch(() => {}); // said when it is to be played
    }
  };
  return new IntersectionObserver(seen, { rootMargin: NEAR });
}

/** Puts a player into each exercise of the page, and has only one thing sound at a time; to be called once. */
export function startPlayers() {
  makers.mount = mountPlayers;
  startDiagrams();
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) stopAll(say("It stopped when this page went out of sight. Press Play to start again."));
  });
  window.addEventListener("pagehide", () => stopAll(""));
  // A preview counts as a player, too. (`play` does not bubble.)
  document.addEventListener("play", ({ target }) => previewStarts(target), true);
  document.addEventListener("ww-state", ({ target, detail }) => {
    if (detail.state === "starting") playerStarts(target);
  });
  new MutationObserver(() => {
    for (const player of players.values()) player.handsChanged();
  }).observe(document.documentElement, { attributeFilter: ["data-ww-hands", "data-ww-feet"] });
  document.addEventListener("click", followClicks);
  mountPlayers();
  // So the stand of one exercise's own page leads to that of the next.
  if (location.hash === "#stand" && players.size) {
    import("./stand.js").then(({ openStand }) => openStand(playersOnPage()[0]));
  }
}

function stopAll(why) {
  for (const player of players.values()) player.stop(why);
}

function previewStarts(preview) {
  stopAll("");
  for (const other of document.querySelectorAll("audio")) {
    if (other !== preview) other.pause();
  }
}

function playerStarts(figure) {
  for (const preview of document.querySelectorAll("audio")) preview.pause();
  for (const [other, player] of players) {
    if (other !== figure) player.stop();
  }
}
