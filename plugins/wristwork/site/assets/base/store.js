/** What stays on this device. Storage may be full, shut off or damaged: nothing here ever throws. */

/** What was kept under a key, or null. */
export function recall(key) {
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch {
    return null;
  }
}

/** Keeps a value; false where the browser will not. */
export function keep(key, value) {
  try {
    localStorage.setItem(key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/** Forgets a key. */
export function forget(key) {
  try {
    localStorage.removeItem(key);
  } catch {
    // Then there is nothing either.
  }
}

export const NOT_KEPT =
  "This browser keeps nothing for this page (private browsing, or its storage is full). It lasts until you leave.";
