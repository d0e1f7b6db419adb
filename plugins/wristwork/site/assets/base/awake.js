/** The screen of the device, left on while something on the page needs it; a device that cannot just goes dark as usual. */

const holders = new Set();
let lock = null;
let isWatching = false;

/** Leaves the screen on until each holder has let go; `holder` is any object. */
export function stayAwake(holder) {
  holders.add(holder);
  if (!isWatching) document.addEventListener("visibilitychange", ask);
  isWatching = true;
  return ask();
}

export function maySleep(holder) {
  holders.delete(holder);
  if (holders.size === 0) release();
}

/** A lock ends when its page is hidden: it is asked for again when the page is back. */
async function ask() {
  if (holders.size === 0 || document.hidden || (lock && !lock.released)) return;
  // Refused, for a low battery perhaps: what needed it goes on.
  const given = await navigator.wakeLock?.request("screen").catch(() => null);
  if (!given) return;
  if (lock && !lock.released) await given.release();
  else lock = given;
  if (holders.size === 0) release();
}

function release() {
  lock?.release();
  lock = null;
}
