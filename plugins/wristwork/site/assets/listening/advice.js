/** One thing to change, or one to be glad of, in the words of the course. Pure. */

const OTHER = { right: "left", left: "right" };
const hand = (side) => (side ? `the ${side} hand` : "the hands");
const ms = (value) => `${Math.round(Math.abs(value))} ms`;
const db = (value) => `${Math.round(Math.abs(value))} dB`;
const percent = (share) => `${(100 * Math.abs(share)).toFixed(1)} %`;

/** For each kind of fault what to do, and the number behind it. */
const ADVICE = {
  missed: ({ side, by }) => [
    side ? `Some strokes of ${hand(side)} are missing. Play slower, and hear each of them.` : "Some strokes are missing. Play slower, and hear each of them.",
    `${Math.round(100 * by)} of 100 strokes were not heard`,
  ],
  drift: ({ by }) =>
    by > 0
      ? ["You get faster than the beat. Breathe out, and let the lights lead.", `${percent(by)} faster than asked`]
      : ["You fall behind the beat. Take a slower tempo that you can hold.", `${percent(by)} slower than asked`],
  accents: ({ by }) => [
    "The accents hardly stand out. Start them high, and keep the taps low.",
    by >= 0.5 ? `accents ${db(by)} over the taps, where 6 or more are wanted` : "accents no louder than the taps",
  ],
  spread: ({ by }) => ["The strokes come unevenly. Play slower, and count aloud.", `${ms(by)} around a steady beat`],
  "uneven taps": ({ by }) => ["Some taps are louder than others. Keep the bead at one height.", `taps ${db(by)} around their middle`],
  "loud hand": ({ side, by }) => [
    `Let ${hand(side)} fall from the same height as the ${OTHER[side]}: it is the louder one.`,
    `${hand(side)} ${db(by)} louder`,
  ],
  "late hand": ({ side, by }) => [`${capital(hand(side))} comes late. Lift it sooner.`, `${hand(side)} ${ms(by)} later`],
  "loud ups": ({ by }) => [
    "The up strokes are louder than the taps. Strike low first, and lift afterwards.",
    `up strokes ${db(by)} over the taps`,
  ],
  "soft seconds": ({ by }) => [
    "The second stroke of a double is weaker. Let the fingers help it down.",
    `second strokes ${db(by)} softer`,
  ],
  "seconds in time": ({ by }) => [
    by > 0 ? "The second stroke of a double comes late. Let it rebound at once." : "The second stroke of a double comes early. Give it its whole time.",
    `second strokes ${ms(by)} ${by > 0 ? "late" : "early"}`,
  ],
  "loud graces": ({ by }) => ["The grace notes are loud. Let them fall from lower down.", `grace notes ${db(by)} louder than meant`],
  place: ({ by, count }) => [
    `${count ? `The stroke on “${count}”` : "One stroke"} always comes ${by > 0 ? "late" : "early"}. Say it aloud while you play.`,
    `${ms(by)} ${by > 0 ? "late" : "early"}`,
  ],
};

const capital = (words) => words[0].toUpperCase() + words.slice(1);

/**
 * What to say after a pass.
 *
 * @param {import("./judgement.js").Judgement} judgement
 * @param {(key: string) => string} countAt how the place of a stroke is counted
 * @returns {{words: string, number: string, isPraise: boolean}}
 */
export function advise(judgement, countAt = () => "") {
  const [fault] = judgement.faults;
  if (!fault) return { ...praise(judgement), isPraise: true };
  const [words, number] = ADVICE[fault.kind]({ ...fault, count: fault.key ? countAt(fault.key) : "" });
  return { words, number, isPraise: false };
}

function praise({ accents, spread, louder, asked, isClean }) {
  if (isClean) return { words: "Clean: in time, even, every stroke there. Once more, or a little faster.", number: `${asked} strokes within ${ms(spread)}` };
  if (accents !== null && accents >= 8) return { words: "The accents stand out well. Keep it.", number: `accents ${db(accents)} over the taps` };
  if (spread <= 15) return { words: "Even and steady. Keep it.", number: `${ms(spread)} around a steady beat` };
  if (louder && Math.abs(louder.by) < 1) return { words: "Both hands sound alike. Keep it.", number: `hands ${db(louder.by)} apart` };
  return { words: "Good. Play it again, as quietly and evenly as you can.", number: `${ms(spread)} around a steady beat` };
}

/** The numbers of a pass as rows of a table. @param {import("./judgement.js").Judgement} judgement */
export function numbersOf({ asked, missed, extra, drift, spread, accents, even, louder, later }) {
  const side = (by) => (by > 0 ? "right" : "left");
  return [
    ["Strokes heard", `${asked - missed} of ${asked}${extra ? `, and ${extra} more` : ""}`],
    ["Tempo", Math.abs(drift) < 0.0005 ? "as asked" : `${percent(drift)} ${drift > 0 ? "faster" : "slower"}`],
    ["Around a steady beat", ms(spread)],
    ...(accents === null ? [] : [["Accents over taps", `${Math.round(accents)} dB`]]),
    ...(even === null ? [] : [["Taps around their middle", `${even.toFixed(1)} dB`]]),
    ...(louder ? [["Louder hand", Math.abs(louder.by) < 0.5 ? "neither" : `${side(louder.by)}, ${db(louder.by)}`]] : []),
    ...(later ? [["Later hand", Math.abs(later.by) < 1 ? "neither" : `${side(later.by)}, ${ms(later.by)}`]] : []),
  ];
}

// How many decibels a stroke must lie over the noise of a room before its loudness says anything.
const OVER_NOISE_DB = 8;
const CLIPPED_SHARE = 0.0005;

/**
 * Why it can't be judged and what would help, or nothing.
 *
 * @param {{strokes: import("./stroke-finder.js").Stroke[], clipped: number, hears: boolean, asked: number, isMidi: boolean}} situation
 */
export function cannotJudge({ strokes, clipped, hears, asked, isMidi }) {
  if (isMidi) return strokes.length === 0 ? "No stroke came from the pad. See that it is switched on and connected." : "";
  if (!hears) return "The microphone gives no sound. Another program may be using it.";
  if (strokes.length < Math.min(4, asked / 4)) {
    return "Hardly a stroke was heard. Lay the device nearer, on something soft, with its microphone towards the pad.";
  }
  if (clipped > CLIPPED_SHARE) {
    return "It is too loud for the microphone, so loud and soft can’t be told apart. Lay the device further away.";
  }
  const over = strokes.map((stroke) => stroke.over).sort((one, other) => one - other);
  if (over[over.length >> 1] < OVER_NOISE_DB) {
    return "The room is too loud: the strokes are lost in it. Turn off what hums, or lay the device nearer to the pad.";
  }
  return "";
}

/** What could not be paired at all. */
export const NOT_THIS = "That was too far from the exercise to be judged. Play slower, and begin with the first beat after the count-in.";
