/**
 * Which exercises are meant by what is typed into the search: by sticking, by title, by id. Pure.
 *
 * @typedef {{id: string, title: string, sticking: string, lesson: string, where: string}} Listed
 * @typedef {{bySticking: boolean, found: Listed[], near: Listed[]}} Answer
 *   `near`: what comes close, where nothing is found.
 */

const STICKING = /^[RLBrlz0-9(){}>^&./|\s…–-]+$/;
// Typed without the shift key: hands, marks and spaces, and nothing that a title could begin with.
const HANDS_IN_LOWER_CASE = /^[rlb(){}>^&./|\s…–-]+$/;
const MANY = 1e6;
const SLIPS = 2;
const NEAR = 5;

const bare = (text) => text.replace(/[\s|]+/g, "").replaceAll("…", "...").replaceAll("–", "-");
const wordsOf = (text) => text.toLocaleLowerCase().split(/[\s-]+/).filter(Boolean);

/** @returns {string|null} what is typed, as a sticking; a stroke and one mark are enough, for a drag is typed llR */
function stickingTyped(typed) {
  const sticking = HANDS_IN_LOWER_CASE.test(typed) ? typed.toUpperCase() : typed;
  return sticking.length > 1 && STICKING.test(sticking) && /[RLB]/.test(sticking) ? sticking : null;
}

/** Takes out of a sticking the marks that nobody asked for: who types no accent means any. */
function comparable(typed) {
  const ignored = [/[>^]/.test(typed) ? "" : ">^", /[()]/.test(typed) ? "" : "()"].join("");
  const marks = ignored && new RegExp(`[${ignored.replace("^", "\\^")}]`, "g");
  return (text) => bare(marks ? text.replace(marks, "") : text);
}

/**
 * @param {Listed[]} all
 * @param {string} typed
 * @returns {Answer}
 */
export function find(all, typed) {
  const sticking = stickingTyped(typed);
  const named = byName(all, typed);
  if (!sticking) return { bySticking: false, found: named, near: named.length ? [] : nearNames(all, typed) };
  const found = [...new Set([...withSticking(all, sticking), ...named])];
  return { bySticking: true, found, near: found.length ? [] : nearStickings(all, sticking) };
}

/** Grouped as typed comes first, then accented as typed; then, the shorter the exercise, the more of it was typed. */
function withSticking(all, typed) {
  const compared = comparable(typed);
  const wanted = compared(typed);
  const unlike = (sticking) => (sticking.includes(typed) ? 0 : bare(sticking).includes(bare(typed)) ? 1 : 2);
  const rank = ({ sticking }) => MANY * unlike(sticking) + compared(sticking).length;
  return all.filter(({ sticking }) => compared(sticking).includes(wanted)).sort((a, b) => rank(a) - rank(b));
}

/** Every word typed begins a word of the title or of the id, the last one perhaps not yet to its end. */
function byName(all, typed) {
  const words = wordsOf(typed);
  const begins = (word, { title, id }) => [...wordsOf(title), ...wordsOf(id)].some((one) => one.startsWith(word));
  return words.length ? all.filter((one) => words.every((word) => begins(word, one))) : [];
}

/** Where one stroke is another than typed. */
function nearStickings(all, typed) {
  const compared = comparable(typed);
  const wanted = compared(typed);
  const off = ({ sticking }) => leastOff(compared(sticking), wanted);
  return wanted.length < 3 ? [] : all.filter((one) => off(one) === 1).slice(0, NEAR);
}

/** By how many strokes the part of `text` that looks most like `wanted` is another. */
function leastOff(text, wanted) {
  let least = Infinity;
  for (let start = 0; start + wanted.length <= text.length; start += 1) {
    const wrong = [...wanted].filter((stroke, place) => stroke !== text[start + place]).length;
    least = Math.min(least, wrong);
  }
  return least;
}

/** Whose name has words that were meant, with a slip of the finger or two. */
function nearNames(all, typed) {
  const words = wordsOf(typed).filter((word) => word.length > SLIPS + 1);
  const slip = (word, one) => Math.min(...wordsOf(one.title).map((held) => slips(word, held.slice(0, word.length + 1))));
  const off = (one) => Math.max(...words.map((word) => slip(word, one)));
  const near = words.length ? all.map((one) => ({ one, off: off(one) })).filter(({ off }) => off <= SLIPS) : [];
  return near
    .sort((a, b) => a.off - b.off)
    .map(({ one }) => one)
    .slice(0, NEAR);
}

/** How many letters are wrong, missing or too many between two words. */
function slips(word, other) {
  let back = Array.from({ length: other.length + 1 }, (_, column) => column);
  for (let row = 1; row <= word.length; row += 1) {
    const now = [row];
    for (let column = 1; column <= other.length; column += 1) {
      const changed = back[column - 1] + Number(word[row - 1] !== other[column - 1]);
      now.push(Math.min(back[column] + 1, now[column - 1] + 1, changed));
    }
    back = now;
  }
  return back[other.length];
}
