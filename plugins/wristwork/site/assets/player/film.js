/**
 * A teacher's own videos: the span of an exercise goes round and round, as slowly as the student likes at the same pitch;
 * a mark of a whole video plays from there. Where what is struck was heard at build time, the diagram follows. Only one thing sounds at a time. Without scripts a browser plays the span.
 */

import { say } from "../base/words.js";
import { make } from "../base/elements.js";
import { playersOnPage } from "./player-list.js";

const SPEEDS = { 1: say("As filmed"), 0.75: say("Three quarters"), 0.5: say("Half"), 0.25: say("A quarter") };

/** What follows a video, by the video; there once it was played. @type {Map<HTMLVideoElement, {clear: () => void}>} */
const followers = new Map();

/** @type {HTMLVideoElement[]} */
const videos = [...document.querySelectorAll("video")].filter((video) => video.closest(".ww-film, .ww-whole-film"));

function stopOthers(mine) {
  for (const player of playersOnPage()) player.stop();
  for (const video of videos) if (video !== mine) video.pause();
}

/** Goes back to where the span begins when it comes to its end; whoever goes elsewhere by the video's own keys may. */
function goRound(video, from, to) {
  let before = 0;
  video.addEventListener("timeupdate", () => {
    const now = video.currentTime;
    if (before < to && now >= to && now - before < 1 && !video.seeking) video.currentTime = from;
    before = video.currentTime;
  });
}

/** @param {HTMLVideoElement} video */
function addSpeed(video) {
  const choice = make("select", { "aria-label": say("Speed of the video"), change: () => set(Number(choice.value)) });
  choice.append(...Object.entries(SPEEDS).reverse().map(([value, words]) => make("option", { value, selected: value === "1" }, words)));
  const set = (speed) => {
    video.preservesPitch = true;
    video.playbackRate = speed;
  };
  video.after(make("p", { class: "ww-film-speed" }, make("label", {}, `${say("Speed")} `, choice)));
}

/** Lets the diagram follow; where the script can't be had, the video plays without. */
function follow(video) {
  video.addEventListener(
    "play",
    async () => {
      const { FilmBeats } = await import("./film-beats.js");
      const follower = new FilmBeats(video);
      followers.set(video, follower);
      follower.begin();
    },
    { once: true },
  );
}

function stopAll() {
  for (const video of videos) video.pause();
  for (const follower of followers.values()) follower.clear();
}

for (const video of videos) {
  video.addEventListener("play", () => stopOthers(video));
  if (video.dataset.wwBeats) follow(video);
  addSpeed(video);
  const { wwFrom, wwTo } = video.dataset;
  if (wwTo) goRound(video, Number(wwFrom), Number(wwTo));
}

for (const mark of document.querySelectorAll(".ww-chapter")) {
  mark.addEventListener("click", (event) => {
    event.preventDefault();
    const video = mark.closest(".ww-whole-film").querySelector("video");
    video.currentTime = Number(mark.dataset.wwFrom);
    video.play();
  });
}

document.addEventListener("ww-state", ({ detail }) => {
  if (detail.state === "starting") stopAll();
});
