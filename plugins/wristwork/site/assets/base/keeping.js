/** The course at hand without a signal: what the worker keeps, and how a new build is taken up when nobody is playing. */

import { say } from "./words.js";
import { startOf, weekOf } from "./dates.js";
import { make } from "./elements.js";
import { ROOT, told } from "./site.js";

const OWN_PATH = import.meta.url.slice(ROOT.href.length);
const AT_ONCE = 4;

const playing = new Set();
let waiting = null;

const PREFIX = `ww:${ROOT.pathname}:`;
const cacheOf = (list) => caches.open(PREFIX + list.build);

/** @typedef {{build: string, files: Record<string, [string, number]>, paths?: string[]}} FileList the files of a week, or all */

/** Has this list's files kept now and of later builds, too. */
export async function keepWhole(list) {
  const cache = await cacheOf(list);
  await cache.put(new URL("offline.json?whole", ROOT), new Response(""));
  await cache.put(new URL("offline.json", ROOT), new Response(JSON.stringify(list)));
}

/** A list by its path, fresh from the network. */
export async function readList(path) {
  const answer = await fetch(new URL(path, ROOT), { cache: "no-cache" });
  if (!answer.ok) throw new Error(`${answer.url}: ${answer.status}`);
  return answer.json();
}

/**
 * Keeps files on this device; those that are there already are left alone.
 *
 * @param {string[]} paths from the root of the site
 * @param {(done: number) => void} told called with how many are there, after each one
 * @returns {Promise<string[]>} the paths that could not be kept
 */
export async function keepFiles(list, paths, told = () => {}) {
  const cache = await cacheOf(list);
  const failed = [];
  const waitingPaths = [...paths];
  let done = 0;
  const work = async () => {
    while (waitingPaths.length > 0) {
      const path = waitingPaths.shift();
      const url = new URL(path, ROOT).href;
      try {
        if (!(await cache.match(url))) await cache.add(url);
      } catch {
        failed.push(path);
      }
      done += 1;
      told(done);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, work));
  return failed;
}

async function start() {
  const registration = await navigator.serviceWorker.register(new URL("worker.js", ROOT), { updateViaCache: "none" });
  await navigator.serviceWorker.ready;
  watch(registration);
  const week = currentWeek();
  if (week !== null && !navigator.connection?.saveData) await keepWeek(week);
}

/** Keeps a week; where it is kept already, nothing is asked for. */
async function keepWeek(number) {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX));
  if (names.length !== 1) return; // a new build is about to come in
  const cache = await caches.open(names[0]);
  const path = `offline/week-${number}.json`;
  if (await cache.match(new URL(path, ROOT))) return;
  const list = await readList(path);
  if (names[0] !== PREFIX + list.build) return;
  const failed = await keepFiles(list, list.paths);
  failed.push(...(await keepFiles(list, await soundsOf(list.paths))));
  // Last: a week with its list is whole.
  if (failed.length === 0) await cache.put(new URL(path, ROOT), new Response(JSON.stringify(list)));
}

/** The sounds that the exercises among these files are played with, and no others. */
async function soundsOf(paths) {
  const read = async (path) => (await fetch(new URL(path, ROOT))).json();
  const sounds = paths.find((path) => path.endsWith("/sounds.json"));
  if (!sounds) return [];
  const data = paths.filter((path) => path.endsWith("/exercise.json"));
  const [kit, ...exercises] = await Promise.all([sounds, ...data].map(read));
  const played = exercises.flatMap(({ strokes }) => strokes.map(({ on, level }) => kit.sounds[on]?.[level] ?? []));
  const parts = [...Object.values(kit.sounds.click), ...played].flat(2);
  const names = new Set(parts.map(([file]) => file));
  return [...names].map((name) => sounds.replace("sounds.json", name));
}

/** The week whose page this is, or the week that is now, or the first; null where the page knows of none. */
function currentWeek() {
  if (told.week) return Number(told.week);
  if (!told.weeks) return null;
  const [first, last] = told.weeks.split(" ").map(Number);
  const start = startOf(told.starts);
  const now = start === null ? first : weekOf(start);
  return now >= first && now <= last ? now : first;
}

function watch(registration) {
  const look = () => {
    if (!registration.waiting || !navigator.serviceWorker.controller) return;
    waiting = registration.waiting;
    takeUp();
  };
  const follow = () => registration.installing?.addEventListener("statechange", look);
  registration.addEventListener("updatefound", follow);
  follow();
  look();
}

/** A page of the new build lets its worker in without a word; an older page asks, and not while it is playing. */
function takeUp() {
  if (waiting && playing.size === 0) waiting.postMessage({ script: OWN_PATH });
}

function offer() {
  if (document.querySelector(".ww-newer")) return;
  const show = () => {
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
    waiting.postMessage("ww-take-over");
    setTimeout(() => location.reload(), 1500); // where another window keeps the old one
  };
  const box = make(
    "div",
    { class: "ww-newer ww-plain", role: "status" },
    make("p", {}, say("This course has changed since you opened it.")),
    make("button", { type: "button", click: show }, say("Show the new version")),
    make("button", { type: "button", click: () => box.remove() }, say("Later")),
  );
  document.body.append(box);
}

/** Whether this browser, and this course, keep anything. */
export const keepsAnything = () => "serviceWorker" in navigator && told.offline !== undefined;

/** Has the worker keep what this page and its week need; to be called once. */
export function startKeeping() {
  document.addEventListener("ww-state", ({ target, detail }) => {
    if (detail.state === "stopped") playing.delete(target);
    else playing.add(target);
    if (playing.size === 0) takeUp();
  });
  navigator.serviceWorker.addEventListener("message", ({ data }) => {
    if (data === "ww-older" && playing.size === 0) offer();
  });
  // After everything that a reader waits for.
  const begin = () => start().catch(() => {}); // without it the course is read as any site is
  if (document.readyState === "complete") setTimeout(begin, 300);
  else window.addEventListener("load", () => setTimeout(begin, 300));
}
