/** What the scripts of the site may count on beyond the browser's own types; for the check of types alone. */

/** Our pages hold HTML: what is found by a class is an element of it. Drawings are asked for in a typed way. */
interface ParentNode {
  querySelector<K extends keyof HTMLElementTagNameMap>(selectors: K): HTMLElementTagNameMap[K] | null;
  querySelectorAll<K extends keyof HTMLElementTagNameMap>(selectors: K): NodeListOf<HTMLElementTagNameMap[K]>;
  querySelector(selectors: string): HTMLElement | null;
  querySelectorAll(selectors: string): NodeListOf<HTMLElement>;
}

/** What a player tells the page; see `players.js`. */
interface DocumentEventMap {
  "ww-state": CustomEvent<{ id: string | null; state: string }>;
  "ww-tempo": CustomEvent<{ id: string | null; tempo: number }>;
  "ww-played": CustomEvent<{ id: string | null; seconds: number; tempo: number }>;
  "ww-listened": CustomEvent<{
    id: string | null; tempo: number; spread: number; accents: number | null; louder: number | null; isClean: boolean;
  }>;
}

/** Not in every browser. */
interface Navigator {
  audioSession?: { type: string };
  connection?: { saveData: boolean };
}
interface Window {
  webkitAudioContext?: typeof AudioContext;
}
