/** Reads every score of a folder with a library that knows nothing of this project, and writes its notes as JSON. */

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parse, validate } from "musicxml-io";

// What the library finds wrong where a score is right: bars that are shorter on purpose (pick-ups, and what comes
// round with them), and grace notes under a beam of their own between notes of another.
const SHORT = "MEASURE_DURATION_UNDERFLOW";
const BEAMS = new Set(["BEAM_BEGIN_WITHOUT_END", "BEAM_END_WITHOUT_BEGIN"]);

let warnings = 0;
for (const way of ["warn", "error"]) {
  console[way] = () => {
    warnings += 1;
  };
}

/** Each note: [grace or not, where it begins, how long it is (in divisions), where it stands, its instrument]. */
function notesOf(score) {
  const named = Object.fromEntries(score.partList.flatMap((part) => part.scoreInstruments ?? []).map((one) => [one.id, one.name]));
  const notes = [];
  let [divisions, start] = [1, 0];
  for (const measure of score.parts[0].measures) {
    let [at, last, end] = [0, 0, 0];
    divisions = measure.attributes?.divisions ?? divisions;
    for (const entry of measure.entries) {
      if (entry.type === "backup") at -= entry.duration;
      if (entry.type !== "note") continue;
      if (!entry.chord) last = at;
      const { displayStep, displayOctave } = entry.unpitched ?? {};
      const place = `${displayStep}${displayOctave}`;
      if (!entry.rest) notes.push([Boolean(entry.grace), start + last, entry.duration, place, named[entry.instrument]]);
      if (!entry.chord && !entry.grace) at += entry.duration;
      end = Math.max(end, at);
    }
    start += end;
  }
  return { divisions, notes };
}

const folder = process.argv[2];
const read = {};
for (const name of readdirSync(folder)) {
  const score = parse(readFileSync(join(folder, name), "utf8"));
  const { errors, warnings: minor } = validate(score);
  const hasGraces = score.parts[0].measures.some((measure) => measure.entries.some((entry) => entry.grace));
  const wrong = [...errors, ...minor].filter(({ code }) => code !== SHORT && !(hasGraces && BEAMS.has(code)));
  read[name] = { ...notesOf(score), wrong: wrong.map(({ message }) => message) };
}
process.stdout.write(JSON.stringify({ warnings, read }));
