/** What an id and a tempo can be, as the course's own reader has it: for what comes from an address, a file or a field. */

export const SLOWEST = 20;
export const FASTEST = 320;
const SHORTEST_ID = 3;
const LONGEST_ID = 48;
const ID = /^[a-z0-9]+(?:-[a-z0-9]+)*$/;

/** Whether a text can be the id of an exercise. */
export const isId = (text) =>
  typeof text === "string" && text.length >= SHORTEST_ID && text.length <= LONGEST_ID && ID.test(text);

export const isTempo = (value) => Number.isInteger(value) && value >= SLOWEST && value <= FASTEST;
