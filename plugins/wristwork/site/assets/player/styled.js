/** Styles of what is opened by a press, fetched when it is first wanted. */

import { make } from "../base/elements.js";

/** Resolves when the style sheet beside the scripts is there, or cannot be had. */
export function styled(name) {
  const href = new URL(name, import.meta.url).href;
  if (document.querySelector(`link[href="${href}"]`)) return Promise.resolve();
  return new Promise((resolve) => {
    document.head.append(make("link", { rel: "stylesheet", href, load: resolve, error: resolve }));
  });
}
