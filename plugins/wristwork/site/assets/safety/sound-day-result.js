/** What a day comes to: as numbers, in words and as a picture. */

import { draw, freshId, make } from "../base/elements.js";
import { attenuation, dayLevel, dose, levelAtTheEar, minutesLeft, sayMinutes, sayPercent } from "./sound-day-formulas.js";

// The bar shows a little more than a full dose, so that its mark is seen inside.
const ROOM_PAST_FULL = 1.15;
// Pixels of the bar, and the least share of it that has room for its number.
const BAR = { top: 34, height: 36 };
const LEAST_NUMBERED = 0.06;

/** The whole result for parts that were checked. */
export function result(facts, parts) {
  const spent = dose(facts, parts);
  const level = dayLevel(facts, parts);
  const summary = make(
    "p",
    { class: "ww-summary", "data-ww-dose": spent, "data-ww-level": level },
    make("strong", {}, sayPercent(spent)),
    " of a working adult’s day. As one level, L",
    make("sub", {}, "EX,8h"),
    `: ${level.toFixed(1)} dB(A).`,
  );
  return [
    summary,
    make("p", {}, verdict(facts, spent)),
    picture(facts, parts, spent),
    shares(facts, parts),
    timeLeft(facts, parts, spent),
    notes(parts),
  ];
}

function verdict(facts, spent) {
  if (spent > facts.fullDose)
    return "That is more than the recommended limit. Play for less time, play more quietly, wear protection that fits, or spread it over more days.";
  if (spent > facts.halfDose)
    return "That is more than half of the recommended limit. The rest of the day should be quiet.";
  return "That is at most half of the recommended limit for a working adult. It is an estimate, so do not fill up the rest.";
}

/** A bar of the parts one after another, against the mark of a full dose. Widths are shares: letters keep their size. */
function picture(facts, parts, spent) {
  const whole = Math.max(spent, facts.fullDose * ROOM_PAST_FULL);
  const share = (percent) => `${((100 * percent) / whole).toFixed(2)}%`;
  const id = freshId("bar");
  const drawing = draw("svg", { class: "ww-day-bar", role: "img", "aria-labelledby": id });
  const title = draw("title", { id });
  const made = parts.length === 1 ? "one part" : `${parts.length} parts`;
  title.textContent = `A bar of ${sayPercent(spent)}, made of ${made}, against a mark at ${facts.fullDose} %.`;
  drawing.append(title, draw("rect", { x: 0, y: BAR.top, width: "100%", height: BAR.height, class: "ww-day-bar-track" }));
  let from = 0;
  parts.forEach((part, index) => {
    const taken = dose(facts, [part]);
    const place = { x: share(from), y: BAR.top, width: share(taken), height: BAR.height };
    drawing.append(draw("rect", { ...place, class: "ww-day-bar-part" }));
    if (taken / whole > LEAST_NUMBERED) drawing.append(words(share(from + taken / 2), BAR.top + 24, index + 1, "middle"));
    from += taken;
  });
  const limit = share(facts.fullDose);
  drawing.append(draw("line", { x1: limit, x2: limit, y1: BAR.top - 8, y2: BAR.top + BAR.height + 8, class: "ww-day-bar-limit" }));
  const anchor = facts.fullDose > whole / 2 ? "end" : "start";
  drawing.append(words(limit, BAR.top - 14, `${facts.fullDose} %: the limit`, anchor));
  return drawing;
}

function shares(facts, parts) {
  const items = parts.map((part) => {
    const ear = levelAtTheEar(facts, part);
    const worn = attenuation(facts, part);
    const counted = worn > 0 ? `, protection counted for ${round(worn)} dB` : "";
    return make("li", {}, `${sayMinutes(facts, part.minutes)} at ${round(ear)} dB${counted}: ${sayPercent(dose(facts, [part]))}`);
  });
  return make("ol", { class: "ww-shares", "aria-label": "What each part takes" }, ...items);
}

/** How long one may still be at each kind of sound, and at the parts of the day as they were worn. */
function timeLeft(facts, parts, spent) {
  const known = facts.surfaces.filter((surface) => surface.level !== null);
  const rows = [
    ...known.map((surface) => [`${surface.title}, without protection`, surface.level]),
    ...parts.map((part, index) => [`As in part ${index + 1}`, levelAtTheEar(facts, part)]),
  ].map(([name, level]) =>
    make(
      "tr",
      {},
      make("th", { scope: "row" }, name),
      make("td", {}, `${round(level)} dB`),
      make("td", {}, spent >= facts.fullDose ? "none" : sayMinutes(facts, minutesLeft(facts, spent, level))),
    ),
  );
  const head = make("tr", {}, ...["", "Level at the ear", "Time left today"].map((name) => make("th", { scope: "col" }, name)));
  const title = "What is left of the day, if it were only this";
  const table = make("table", { class: "ww-facts-table" }, make("caption", {}, title), make("thead", {}, head), make("tbody", {}, ...rows));
  // A region that may scroll sideways must be reachable with the keyboard.
  return make("div", { class: "ww-facts", role: "region", "aria-label": title, tabindex: 0 }, table);
}

/** What to know about this very result. */
function notes(parts) {
  const says = [];
  if (parts.some((part) => part.guessed))
    says.push("Levels that you did not change are guesses on the cautious side. Measured ones are better.");
  if (parts.some((part) => part.protection === "snr" && part.weighting === "A"))
    says.push("An SNR belongs to a level in dB(C), which may be a few dB above the dB(A) of the same drums: the true dose may be higher than shown.");
  if (parts.some((part) => part.protection === "nrr-other-plugs"))
    says.push("The rule for labelled NRR is hard on flat plugs, because it is made for plugs fitted carelessly. A fit-tested value is the better figure.");
  if (parts.some((part) => part.weighting === "C"))
    says.push("Levels in dB(C) without an NRR or SNR are counted as if they were dB(A), which errs on the cautious side.");
  says.push("Single peaks are not in a dose. This is an estimate: no measurement, no law, and not made for children.");
  return make("ul", { class: "ww-notes" }, ...says.map((words) => make("li", {}, words)));
}

const round = (value) => Math.round(value * 10) / 10;

function words(x, y, content, anchor) {
  const element = draw("text", { x, y, "text-anchor": anchor });
  element.textContent = content;
  return element;
}
