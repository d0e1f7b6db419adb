/** A week's practice in an address, for a tutor to look at: the table that the student sees. */

import { isId, isTempo } from "../base/limits.js";
import { readDay } from "../base/dates.js";
import { pack, Reader, unpack, Writer } from "../base/pack.js";

const VERSION = 1;

/**
 * @typedef {{id: string, isDone: boolean, doneOn: string, best: number|null, minutes: number, tempos: number[],
 *   heard?: import("./listened.js").Listened|null}} Row
 * @typedef {{week: number, minutes: number[], question: string, rows: Row[]}} Report `minutes` by day, oldest first;
 *   `tempos` are the clean ones, oldest first
 */
export function encodeReport({ week, minutes, question, rows }) {
  const head = new Writer().number(week).number(minutes.length);
  for (const each of minutes) head.number(each);
  head.text(question);
  const pieces = rows.map(({ id, isDone, doneOn, best, minutes: played, tempos }) => {
    const writer = new Writer().text(id).number(isDone ? 1 : 0).number(best ?? 0).number(played).number(tempos.length);
    for (const tempo of tempos) writer.number(tempo);
    return (doneOn ? writer.text(doneOn) : writer).bytes;
  });
  return pack(VERSION, [head.bytes, ...pieces]);
}

/** @returns {Report & {lost: number, isNewer: boolean, isReport: boolean}} what can be read */
export function decodeReport(text) {
  const { version, announced, pieces } = unpack(text);
  const head = readHead(pieces[0]);
  const rows = pieces.slice(1).map(readRow).filter(Boolean);
  const isReport = version !== null && version > 0 && head !== null;
  return { ...(head ?? { week: 0, minutes: [], question: "" }), rows, lost: announced - 1 - rows.length, isNewer: version > VERSION, isReport };
}

function readHead(piece) {
  return reading(piece, (reader) => {
    const week = reader.number();
    const minutes = numbers(reader, 31);
    return { week, minutes, question: reader.text() };
  });
}

function readRow(piece) {
  return reading(piece, (reader) => {
    const row = { id: reader.text(), isDone: reader.number() % 2 === 1, best: reader.number() || null, minutes: reader.number() };
    row.tempos = numbers(reader, 60);
    row.doneOn = reader.isOver ? "" : reader.text(); // older links say no day
    const isSound = isId(row.id) && (row.best === null || isTempo(row.best)) && row.tempos.every(isTempo) && (row.doneOn === "" || readDay(row.doneOn) !== null);
    return isSound ? row : null;
  });
}

function numbers(reader, most) {
  const count = reader.number();
  if (count > most) throw new RangeError("Too many");
  return Array.from({ length: count }, () => reader.number());
}

function reading(piece, read) {
  try {
    return piece ? read(new Reader(piece)) : null;
  } catch {
    return null;
  }
}
