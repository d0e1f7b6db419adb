/** The worker of a course that wants none: it takes away an earlier one and all that it kept. */

const PREFIX = `ww:${new URL(self.registration.scope).pathname}:`;

self.addEventListener("install", () => self.skipWaiting());

self.addEventListener("activate", (event) => event.waitUntil(leave()));

async function leave() {
  for (const name of await caches.keys()) {
    if (name.startsWith(PREFIX)) await caches.delete(name);
  }
  await self.registration.unregister();
}
