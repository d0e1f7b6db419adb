/** Where this course is: the address at which it is being looked at, and the one at which it is published. */

import { say } from "./words.js";

/** The root of the site, above the folder of these scripts. */
export const ROOT = new URL("../../../", import.meta.url);

/** What every page tells its scripts: see the head of a page. */
export const told = document.querySelector("#ww-everywhere")?.dataset ?? {};

// A link that is sent has to open for others: a preview's address would not.
const PUBLISHED = told.site ? new URL(told.site) : ROOT;

/** The published address of a place that is given from the root of the site. */
export const published = (path) => new URL(path, PUBLISHED);

/** The path of this page from the root of the site. */
export const herePath = () => location.href.slice(ROOT.href.length).replace(/[?#].*/, "");

const isPreview = /^(localhost|127\.|\[::1\])/.test(ROOT.hostname);

/** What to say beside "copied" where the link leads to another address than this page's, or to this machine alone. */
export const whereItLeads = sayWhere();

function sayWhere() {
  const address = PUBLISHED.href;
  const elsewhere = say("It leads to {address}, where the course is published, and not to this page here.", { address });
  if (address !== ROOT.href) return ` ${elsewhere}`;
  return isPreview && !told.site ? ` ${say("It leads to this preview alone: the course does not say yet where it is published.")}` : "";
}
