/**
 * The arithmetic of a sound day. Every constant comes with the page, from the facts that the course's
 * own checks count with; see the tables beside the calculator for where each one comes from.
 *
 * A part of the day is { level, minutes, protection, label, weighting }: dB, minutes, the key of a kind
 * of protection, the number on its label, "A" or "C".
 */

import { decimal, say } from "../base/words.js";

const TINY = 1e-9;

/** What protection counts for in dB, never less than 0. */
export function attenuation(facts, { protection, label, weighting }) {
  const kind = facts.protection.find((known) => known.key === protection);
  const less = weighting === "C" ? kind.lessFromC : kind.lessFromA;
  return Math.max(0, (kind.hasLabel ? label : 0) * kind.factor - less);
}

/** The level that counts once protection is taken off. */
export const levelAtTheEar = (facts, part) => part.level - attenuation(facts, part);

/** Minutes at a level that make up a full dose. */
export const allowedMinutes = (facts, level) =>
  facts.limitMinutes / 2 ** ((level - facts.limitLevel) / facts.exchangeRate);

/** The dose of a day in percent. */
export const dose = (facts, parts) =>
  facts.fullDose *
  parts.reduce((sum, part) => sum + part.minutes / allowedMinutes(facts, levelAtTheEar(facts, part)), 0);

/** The day as one level over the working day in dB(A), or null for a day without sound. */
export function dayLevel(facts, parts) {
  const energy = parts.reduce(
    (sum, part) => sum + (part.minutes / facts.limitMinutes) * 10 ** (levelAtTheEar(facts, part) / 10),
    0,
  );
  return energy > 0 ? 10 * Math.log10(energy) : null;
}

/** Minutes at a level until the day's dose is full. */
export const minutesLeft = (facts, spent, level) =>
  Math.max(0, 1 - spent / facts.fullDose) * allowedMinutes(facts, level);

/** A time in words, rounded down: below ten minutes to a tenth, else to the minute. */
export function sayMinutes(facts, exact) {
  const minutes = exact + TINY;
  if (minutes >= facts.minutes[1]) return say("24 h");
  if (minutes < 10) return say("{minutes} min", { minutes: decimal(Math.floor(minutes * 10) / 10) });
  const whole = Math.floor(minutes);
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  if (!hours) return say("{minutes} min", { minutes: whole });
  return rest ? say("{hours} h {rest} min", { hours, rest }) : say("{hours} h", { hours });
}

/** A percentage in words: to a tenth, very large ones to a whole number. */
export const sayPercent = (value) => say("{percent} %", { percent: value < 1000 ? decimal(Number(value.toFixed(1))) : Math.round(value) });
