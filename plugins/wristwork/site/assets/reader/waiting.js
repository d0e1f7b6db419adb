/** A page that waits for an exercise's day: where a browser kept it beyond that day, it makes way for the exercise. */

async function makeWay() {
  const fresh = await fetch(location.href, { cache: "no-cache" }).catch(() => null);
  if (fresh?.ok && !(await fresh.text()).includes("data-ww-waiting")) location.reload();
}

const [arrival] = performance.getEntriesByType("navigation");
// What comes by a reload was asked for anew already, so this never goes round in a circle.
if (/** @type {PerformanceNavigationTiming} */ (arrival)?.type !== "reload") makeWay();
