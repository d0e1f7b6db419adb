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
// Lists of files, each with what shows whether a file has changed: of what every page needs, of each week, of all.
const LISTS = new URL("offline/", SCOPE).href;
const SHELL = `${LISTS}shell.json`;
const ALL = new URL("offline.json", SCOPE).href;
// There where the reader asked for the whole course.
const WHOLE = `${ALL}?whole`;
const PATIENCE_MS = 2500;
// These have a digest of their content in their address: what was kept once is right for ever.
const NAMED_BY_CONTENT = /\/assets\/(?:wristwork\/[0-9a-f]{10}\/|(?:javascripts|stylesheets)\/[^?]*\.[0-9a-f]{8}\.min\.)/;

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));

self.addEventListener("message", (event) => {
  if (event.data === "ww-take-over") event.waitUntil(takeOver());
  else if (event.data?.script) event.waitUntil(letIn(event.data.script, event.source));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  const isOurs = request.method === "GET" && url.href.startsWith(SCOPE.href) && !isList(url.href);
  if (isOurs && !url.pathname.endsWith("/worker.js")) {
    event.respondWith(answer(event, request, url).catch(() => fetch(request)));
  }
});

const isList = (href) => href === ALL || href.startsWith(LISTS);

async function readList(address) {
  const answer = await fetch(address, { cache: "no-store" });
  if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
  const list = await answer.json();
  if (list.build !== BUILD) throw new Error("The site is just being published: later.");
  return list;
}

const putList = (cache, address, list) =>
  cache.put(address, new Response(JSON.stringify(list), { headers: { "Content-Type": "application/json" } }));

/** Fetches what every page needs; takes over from older caches what has not changed. */
async function install() {
  const shell = await readList(SHELL);
  const older = await olderCaches();
  const cache = await caches.open(CACHE);
  await Promise.all(shell.paths.map((path) => take(path, shell.files, older, cache)));
  await keepOn(shell, older, cache);
  // Last: a cache with this list is whole.
  await putList(cache, SHELL, shell);
}

/** What was kept of older builds is kept of this one, too: weeks, the whole course, pages that were opened. */
async function keepOn(shell, older, cache) {
  if (older.some(({ isWhole }) => isWhole)) await cache.put(WHOLE, new Response(""));
  const files = { ...shell.files };
  for (const address of new Set(older.flatMap(({ lists }) => lists))) {
    const list = await readList(address).catch(() => null); // a week that is gone
    if (!list) continue;
    Object.assign(files, list.files);
    await takeAll(list.paths ?? Object.keys(list.files), files, older, cache);
    await putList(cache, address, list);
  }
  const opened = older.flatMap(({ paths }) => paths).filter((path) => Object.hasOwn(files, path) || !NAMED_BY_CONTENT.test(`/${path}`));
  await takeAll(new Set(opened), files, older, cache);
}

async function takeAll(paths, files, older, cache) {
  for (const path of paths) await take(path, files, older, cache).catch(() => {}); // it may be gone
}

async function olderCaches() {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  return Promise.all(names.map(async (name) => olderCache(await caches.open(name))));
}

/** What a cache holds: files with what was known of them, lists of weeks (or of all), whether it is the whole course. */
async function olderCache(cache) {
  const addresses = (await cache.keys()).map(({ url }) => url);
  const kept = addresses.filter(isList).filter((address) => address !== WHOLE);
  const lists = await Promise.all(kept.map(async (address) => (await cache.match(address)).json()));
  const isWhole = addresses.includes(WHOLE);
  return {
    cache,
    isWhole,
    files: Object.assign({}, ...lists.map(({ files }) => files)),
    lists: [...kept.filter((address) => address !== SHELL && address !== ALL), ...(isWhole ? [ALL] : [])],
    paths: addresses.filter((address) => !isList(address) && address !== WHOLE).map((url) => decodeURI(url.slice(SCOPE.href.length))),
  };
}

async function take(path, files, older, cache) {
  const url = new URL(path, SCOPE).href;
  if (await cache.match(url)) return;
  for (const { cache: before, files: known } of older) {
    const isSame = Object.hasOwn(known, path) && Object.hasOwn(files, path) && known[path][0] === files[path][0];
    const kept = isSame ? await before.match(url) : null;
    if (kept) {
      await cache.put(url, kept);
      return;
    }
  }
  const fresh = await fetch(url, { cache: "no-cache" });
  if (!fresh.ok) throw new Error(`${url}: ${fresh.status}`);
  if (!(await isWaiting(url, fresh))) await cache.put(url, fresh);
}

/** A page that tells on which day an exercise opens: never kept, so that on that day nothing hides the exercise. */
async function isWaiting(address, answer) {
  const isPlace = /^x\/[^/]+\/(?:index\.html)?$/.test(address.slice(SCOPE.href.length));
  return isPlace && (await answer.clone().text()).includes("data-ww-waiting");
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

/** A page of this build lets its worker in; an older one, whose `script` is no longer here, is to ask its reader. */
async function letIn(script, page) {
  const cache = await caches.open(CACHE);
  if (await cache.match(new URL(script, SCOPE).href)) await takeOver();
  else page.postMessage("ww-older");
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
    event.waitUntil(keep(keyOf(url), copy).catch(() => {}));
  }
  return fresh;
}

async function keep(address, answer) {
  if (await isWaiting(address, answer)) return;
  const cache = await caches.open(CACHE);
  await cache.put(address, answer);
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
<title>Not on this device yet</title><style>@COLOURS@body{font:1.1rem/1.6 system-ui,sans-serif;margin:2rem auto;
max-width:34rem;padding:0 1rem;background:var(--ww-paper);color:var(--ww-ink)}a{color:var(--ww-link)}</style><h1>Not on this device yet</h1><p>There is no signal, and this page was not kept
before it went. It is there again as soon as the signal is.</p><p><a href="${SCOPE.href}">The course’s first page</a> and
the weeks you have opened are kept on this device.</p></html>`;
  return new Response(page, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}
