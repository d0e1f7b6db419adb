/** What a day comes to: as numbers, in words and as a picture. */

import { decimal, say, sayCount } from "../base/words.js";
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
  const told = say("of a working adult’s day. As one level, L_EX,8h: {level} dB(A).", { level: decimal(Number(level.toFixed(1))) });
  const [before, after] = told.split("_EX,8h");
  const summary = make(
    "p",
    { class: "ww-summary", "data-ww-dose": spent, "data-ww-level": level },
    make("strong", {}, sayPercent(spent)),
    ` ${before}`,
    make("sub", {}, "EX,8h"),
    after,
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
    return say("That is more than the recommended limit. Play for less time, play more quietly, wear protection that fits, or spread it over more days.");
  if (spent > facts.halfDose)
    return say("That is more than half of the recommended limit. The rest of the day should be quiet.");
  return say("That is at most half of the recommended limit for a working adult. It is an estimate, so do not fill up the rest.");
}

/** A bar of the parts one after another, against the mark of a full dose. Widths are shares: letters keep their size. */
function picture(facts, parts, spent) {
  const whole = Math.max(spent, facts.fullDose * ROOM_PAST_FULL);
  const share = (percent) => `${((100 * percent) / whole).toFixed(2)}%`;
  const id = freshId("bar");
  const drawing = draw("svg", { class: "ww-day-bar", role: "img", "aria-labelledby": id });
  const title = draw("title", { id });
  const made = sayCount("one part", "{count} parts", parts.length);
  title.textContent = say("A bar of {percent}, made of {made}, against a mark at {full} %.", { percent: sayPercent(spent), made, full: facts.fullDose });
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
  drawing.append(words(limit, BAR.top - 14, say("{full} %: the limit", { full: facts.fullDose }), anchor));
  return drawing;
}

function shares(facts, parts) {
  const items = parts.map((part) => {
    const ear = levelAtTheEar(facts, part);
    const worn = attenuation(facts, part);
    const told = { time: sayMinutes(facts, part.minutes), ear: round(ear), worn: round(worn), percent: sayPercent(dose(facts, [part])) };
    return make(
      "li",
      {},
      worn > 0
        ? say("{time} at {ear} dB, protection counted for {worn} dB: {percent}", told)
        : say("{time} at {ear} dB: {percent}", told),
    );
  });
  return make("ol", { class: "ww-shares", "aria-label": say("What each part takes") }, ...items);
}

/** How long one may still be at each kind of sound, and at the parts of the day as they were worn. */
function timeLeft(facts, parts, spent) {
  const known = facts.surfaces.filter((surface) => surface.level !== null);
  const rows = [
    ...known.map((surface) => [say("{title}, without protection", { title: surface.title }), surface.level]),
    ...parts.map((part, index) => [say("As in part {number}", { number: index + 1 }), levelAtTheEar(facts, part)]),
  ].map(([name, level]) =>
    make(
      "tr",
      {},
      make("th", { scope: "row" }, name),
      make("td", {}, say("{level} dB", { level: round(level) })),
      make("td", {}, spent >= facts.fullDose ? say("none") : sayMinutes(facts, minutesLeft(facts, spent, level))),
    ),
  );
  const head = make("tr", {}, ...["", say("Level at the ear"), say("Time left today")].map((name) => make("th", { scope: "col" }, name)));
  const title = say("What is left of the day, if it were only this");
  const table = make("table", { class: "ww-facts-table" }, make("caption", {}, title), make("thead", {}, head), make("tbody", {}, ...rows));
  // A region that may scroll sideways must be reachable with the keyboard.
  return make("div", { class: "ww-facts", role: "region", "aria-label": title, tabindex: 0 }, table);
}

/** What to know about this very result. */
function notes(parts) {
  const says = [];
  if (parts.some((part) => part.guessed))
    says.push(say("Levels that you did not change are guesses on the cautious side. Measured ones are better."));
  if (parts.some((part) => part.protection === "snr" && part.weighting === "A"))
    says.push(say("An SNR belongs to a level in dB(C), which may be a few dB above the dB(A) of the same drums: the true dose may be higher than shown."));
  if (parts.some((part) => part.protection === "nrr-other-plugs"))
    says.push(say("The rule for labelled NRR is hard on flat plugs, because it is made for plugs fitted carelessly. A fit-tested value is the better figure."));
  if (parts.some((part) => part.weighting === "C"))
    says.push(say("Levels in dB(C) without an NRR or SNR are counted as if they were dB(A), which errs on the cautious side."));
  says.push(say("Single peaks are not in a dose. This is an estimate: no measurement, no law, and not made for children."));
  return make("ul", { class: "ww-notes" }, ...says.map((words) => make("li", {}, words)));
}

const round = (value) => decimal(Math.round(value * 10) / 10);

function words(x, y, content, anchor) {
  const element = draw("text", { x, y, "text-anchor": anchor });
  element.textContent = content;
  return element;
}
