/** On every page: has the worker keep the course at hand, and takes up a new build when nobody is playing. */

import { startOf, weekOf } from "../student/dates.js";
import { make } from "./player-dom.js";

/** The root of the site, above the folder of these scripts. */
export const ROOT = new URL("../../../", import.meta.url);
const OWN_PATH = import.meta.url.slice(ROOT.href.length);
const AT_ONCE = 4;

const playing = new Set();
let waiting = null;

document.addEventListener("ww-state", ({ target, detail }) => {
  if (detail.state === "stopped") playing.delete(target);
  else playing.add(target);
  if (playing.size === 0) takeUp();
});

const cacheOf = (list) => caches.open(`ww:${ROOT.pathname}:${list.build}`);

/** Has later builds kept whole, too. */
export async function keepWhole(list) {
  const cache = await cacheOf(list);
  await cache.put(new URL("offline.json?whole", ROOT), new Response(""));
}

/** The list of all that can be kept, fresh from the network. */
export async function readList() {
  const answer = await fetch(new URL("offline.json", ROOT), { cache: "no-cache" });
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
  if (navigator.connection?.saveData) return;
  const list = await readList();
  const week = currentWeek(list);
  if (!week) return;
  await keepFiles(list, list.weeks[week]);
  await keepFiles(list, await soundsOf(list.weeks[week]));
}

/** The sounds that the exercises among these files are played with, and no others. */
async function soundsOf(paths) {
  const read = async (path) => (await fetch(new URL(path, ROOT))).json();
  const sounds = paths.find((path) => path.endsWith("/sounds.json"));
  if (!sounds) return [];
  const data = paths.filter((path) => path.endsWith("/exercise.json"));
  const [kit, ...exercises] = await Promise.all([sounds, ...data].map(read));
  const names = new Set(Object.values(kit.sounds.click).flat());
  for (const { on, level } of exercises.flatMap(({ strokes }) => strokes)) {
    for (const name of kit.sounds[on]?.[level] ?? []) names.add(name);
    if (kit.washes[on]) names.add(kit.washes[on].file);
  }
  return [...names].map((name) => sounds.replace("sounds.json", name));
}

/** The week whose page this is, or the week that is now. */
function currentWeek(list) {
  const path = decodeURI(location.href.slice(ROOT.href.length).replace(/[?#].*/, ""));
  const here = Object.keys(list.weeks).find((number) => list.weeks[number].includes(path));
  const first = startOf(list.starts);
  const now = first === null ? null : String(weekOf(first));
  return here ?? (now !== null && Object.hasOwn(list.weeks, now) ? now : Object.keys(list.weeks)[0]);
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
async function takeUp() {
  if (!waiting || playing.size > 0) return;
  const { files } = await readList().catch(() => ({ files: {} }));
  if (playing.size > 0) return;
  if (Object.hasOwn(files, OWN_PATH)) waiting.postMessage("ww-take-over");
  else offer();
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
    make("p", {}, "This course has changed since you opened it."),
    make("button", { type: "button", click: show }, "Show the new version"),
    make("button", { type: "button", click: () => box.remove() }, "Later"),
  );
  document.body.append(box);
}

if ("serviceWorker" in navigator && document.querySelector("#ww-everywhere")?.dataset.offline !== undefined) {
  // After everything that a reader waits for.
  const begin = () => start().catch(() => {}); // without it the course is read as any site is
  if (document.readyState === "complete") setTimeout(begin, 300);
  else window.addEventListener("load", () => setTimeout(begin, 300));
}
