/**
 * Keeps the course at hand where there is no signal.
 *
 * Pages come from the network while there is one that answers in time, so nobody is held to an old page;
 * what is kept is for the rest. Whatever goes wrong in here, the request goes to the network as if there
 * were no worker.
 */

const BUILD = "@BUILD@";
const SCOPE = new URL(self.registration.scope);
// Several courses may live on one host: each one's caches carry its own path.
const PREFIX = `ww:${SCOPE.pathname}:`;
const CACHE = PREFIX + BUILD;
const LIST = new URL("offline.json", SCOPE).href;
// There where the reader asked for the whole course.
const WHOLE = `${LIST}?whole`;
const PATIENCE_MS = 2500;
// These have a digest of their content in their address: what was kept once is right for ever.
const NAMED_BY_CONTENT = /\/assets\/(?:wristwork\/[0-9a-f]{10}\/|(?:javascripts|stylesheets)\/[^?]*\.[0-9a-f]{8}\.min\.)/;

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));

self.addEventListener("message", ({ data }) => {
  if (data === "ww-take-over") takeOver();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  const isOurs = request.method === "GET" && url.href.startsWith(SCOPE.href) && url.href !== LIST;
  if (isOurs && !url.pathname.endsWith("/worker.js")) {
    event.respondWith(answer(event, request, url).catch(() => fetch(request)));
  }
});

/** Fetches what every page needs; takes over from older caches what has not changed. */
async function install() {
  const list = await (await fetch(LIST, { cache: "no-store" })).json();
  if (list.build !== BUILD) throw new Error("The site is just being published: later.");
  const older = await olderCaches();
  const cache = await caches.open(CACHE);
  await Promise.all(list.shell.map((path) => take(path, list, older, cache)));
  const marks = await Promise.all(older.map(({ cache: before }) => before.match(WHOLE)));
  const mark = marks.find(Boolean);
  if (mark) await cache.put(WHOLE, mark);
  for (const path of mark ? Object.keys(list.files) : await pathsIn(older)) {
    if (Object.hasOwn(list.files, path)) await take(path, list, older, cache).catch(() => {});
  }
  // Last: a cache with a list is whole.
  await cache.put(LIST, new Response(JSON.stringify(list), { headers: { "Content-Type": "application/json" } }));
}

async function olderCaches() {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  return Promise.all(
    names.map(async (name) => {
      const cache = await caches.open(name);
      const kept = await cache.match(LIST);
      return { cache, files: kept ? (await kept.json()).files : {} };
    }),
  );
}

async function pathsIn(older) {
  const requests = await Promise.all(older.map(({ cache }) => cache.keys()));
  return new Set(requests.flat().map(({ url }) => decodeURI(url.slice(SCOPE.href.length))));
}

async function take(path, list, older, cache) {
  const url = new URL(path, SCOPE).href;
  if (await cache.match(url)) return;
  for (const { cache: before, files } of older) {
    const isSame = Object.hasOwn(files, path) && files[path][0] === list.files[path][0];
    const kept = isSame ? await before.match(url) : null;
    if (kept) {
      await cache.put(url, kept);
      return;
    }
  }
  const fresh = await fetch(url, { cache: "no-cache" });
  if (!fresh.ok) throw new Error(`${url}: ${fresh.status}`);
  await cache.put(url, fresh);
}

async function activate() {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(names.map((name) => caches.delete(name)));
  await self.clients.claim();
}

/** Another window may be in the middle of an exercise: then this waits until all are closed. */
async function takeOver() {
  const windows = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  if (windows.length < 2) await self.skipWaiting();
}

async function answer(event, request, url) {
  if (request.headers.has("range")) return partOf(request, url);
  if (NAMED_BY_CONTENT.test(url.pathname)) return (await keptAt(url)) ?? fetchAndKeep(event, request, url);
  const network = fetchAndKeep(event, request, url).catch(() => null);
  const inTime = await Promise.race([network, later(PATIENCE_MS)]);
  if (inTime && inTime.status < 500) return inTime;
  const kept = await keptAt(url);
  if (kept) return kept;
  return (await network) ?? (request.mode === "navigate" ? notKept() : Response.error());
}

const later = (ms) => new Promise((resolve) => setTimeout(resolve, ms, null));

async function fetchAndKeep(event, request, url) {
  const fresh = await fetch(request);
  if (fresh.ok && fresh.type === "basic" && !fresh.redirected) {
    const copy = fresh.clone();
    // A full store is no reason to fail.
    event.waitUntil(caches.open(CACHE).then((cache) => cache.put(keyOf(url), copy)).catch(() => {}));
  }
  return fresh;
}

const keyOf = (url) => url.origin + url.pathname;

async function keptAt(url) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(keyOf(url));
  if (kept) return kept;
  // As a host does, so that the page's own links start from the right folder.
  const isFolder = await cache.match(`${keyOf(url)}/`);
  return isFolder ? Response.redirect(`${keyOf(url)}/${url.search}`) : undefined;
}

/** A part of a sound, as players of some browsers ask for it. */
async function partOf(request, url) {
  const kept = await keptAt(url);
  const asked = request.headers.get("range").match(/^bytes=(\d+)-(\d*)$/);
  if (!kept || !asked) return fetch(request);
  const whole = await kept.blob();
  const from = Number(asked[1]);
  const to = Math.min(asked[2] === "" ? Infinity : Number(asked[2]), whole.size - 1);
  return new Response(whole.slice(from, to + 1, whole.type), {
    status: 206,
    headers: {
      "Content-Type": kept.headers.get("Content-Type") ?? "application/octet-stream",
      "Content-Range": `bytes ${from}-${to}/${whole.size}`,
      "Content-Length": String(to - from + 1),
    },
  });
}

function notKept() {
  const page = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Not on this device yet</title><style>body{font:1.1rem/1.6 system-ui,sans-serif;margin:2rem auto;max-width:34rem;
padding:0 1rem;background:#fbfaf6;color:#10262b}a{color:#0b5f70}@media(prefers-color-scheme:dark){body{background:#0b1b20;
color:#e6efed}a{color:#83d3dc}}</style><h1>Not on this device yet</h1><p>There is no signal, and this page was not kept
before it went. It is there again as soon as the signal is.</p><p><a href="${SCOPE.href}">The course’s first page</a> and
the weeks you have opened are kept on this device.</p></html>`;
  return new Response(page, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}
