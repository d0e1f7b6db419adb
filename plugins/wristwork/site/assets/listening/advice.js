/** One thing to change, or one to be glad of, in the words of the course. Pure. */

import { decimal, say } from "../base/words.js";

const ms = (value) => say("{count} ms", { count: Math.round(Math.abs(value)) });
const db = (value) => say("{count} dB", { count: Math.round(Math.abs(value)) });
const percent = (share) => `${decimal(100 * Math.abs(share))} %`;
const bySide = (side, right, left) => (side === "right" ? right : left);

/** For each kind of fault what to do, and the number behind it. */
const ADVICE = {
  missed: ({ side, by }) => [
    side
      ? bySide(
          side,
          say("Some strokes of the right hand are missing. Play slower, and hear each of them."),
          say("Some strokes of the left hand are missing. Play slower, and hear each of them."),
        )
      : say("Some strokes are missing. Play slower, and hear each of them."),
    say("{count} of 100 strokes were not heard", { count: Math.round(100 * by) }),
  ],
  drift: ({ by }) =>
    by > 0
      ? [say("You get faster than the beat. Breathe out, and let the lights lead."), say("{percent} faster than asked", { percent: percent(by) })]
      : [say("You fall behind the beat. Take a slower tempo that you can hold."), say("{percent} slower than asked", { percent: percent(by) })],
  accents: ({ by }) => [
    say("The accents hardly stand out. Start them high, and keep the taps low."),
    by >= 0.5 ? say("accents {db} over the taps, where 6 or more are wanted", { db: db(by) }) : say("accents no louder than the taps"),
  ],
  spread: ({ by }) => [say("The strokes come unevenly. Play slower, and count aloud."), say("{ms} around a steady beat", { ms: ms(by) })],
  "uneven taps": ({ by }) => [say("Some taps are louder than others. Keep the bead at one height."), say("taps {db} around their middle", { db: db(by) })],
  "loud hand": ({ side, by }) => [
    bySide(
      side,
      say("Let the right hand fall from the same height as the left: it is the louder one."),
      say("Let the left hand fall from the same height as the right: it is the louder one."),
    ),
    bySide(side, say("the right hand {db} louder", { db: db(by) }), say("the left hand {db} louder", { db: db(by) })),
  ],
  "late hand": ({ side, by }) => [
    bySide(side, say("The right hand comes late. Lift it sooner."), say("The left hand comes late. Lift it sooner.")),
    bySide(side, say("the right hand {ms} later", { ms: ms(by) }), say("the left hand {ms} later", { ms: ms(by) })),
  ],
  "loud ups": ({ by }) => [
    say("The up strokes are louder than the taps. Strike low first, and lift afterwards."),
    say("up strokes {db} over the taps", { db: db(by) }),
  ],
  "soft seconds": ({ by }) => [
    say("The second stroke of a double is weaker. Let the fingers help it down."),
    say("second strokes {db} softer", { db: db(by) }),
  ],
  "seconds in time": ({ by }) => [
    by > 0 ? say("The second stroke of a double comes late. Let it rebound at once.") : say("The second stroke of a double comes early. Give it its whole time."),
    by > 0 ? say("second strokes {ms} late", { ms: ms(by) }) : say("second strokes {ms} early", { ms: ms(by) }),
  ],
  "loud graces": ({ by }) => [say("The grace notes are loud. Let them fall from lower down."), say("grace notes {db} louder than meant", { db: db(by) })],
  place: ({ by, count }) => [
    count ? placed(by, count) : somewhere(by),
    by > 0 ? say("{ms} late", { ms: ms(by) }) : say("{ms} early", { ms: ms(by) }),
  ],
};

const placed = (by, count) =>
  by > 0
    ? say("The stroke on “{count}” always comes late. Say it aloud while you play.", { count })
    : say("The stroke on “{count}” always comes early. Say it aloud while you play.", { count });

const somewhere = (by) =>
  by > 0
    ? say("One stroke always comes late. Say it aloud while you play.")
    : say("One stroke always comes early. Say it aloud while you play.");

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
  if (isClean) return { words: say("Clean: in time, even, every stroke there. Once more, or a little faster."), number: say("{asked} strokes within {ms}", { asked, ms: ms(spread) }) };
  if (accents !== null && accents >= 8) return { words: say("The accents stand out well. Keep it."), number: say("accents {db} over the taps", { db: db(accents) }) };
  if (spread <= 15) return { words: say("Even and steady. Keep it."), number: say("{ms} around a steady beat", { ms: ms(spread) }) };
  if (louder && Math.abs(louder.by) < 1) return { words: say("Both hands sound alike. Keep it."), number: say("hands {db} apart", { db: db(louder.by) }) };
  return { words: say("Good. Play it again, as quietly and evenly as you can."), number: say("{ms} around a steady beat", { ms: ms(spread) }) };
}

/** The numbers of a pass as rows of a table. @param {import("./judgement.js").Judgement} judgement */
export function numbersOf({ asked, missed, extra, drift, spread, accents, even, louder, later }) {
  const side = (by) => (by > 0 ? say("right") : say("left"));
  return [
    [say("Strokes heard"), extra ? say("{heard} of {asked}, and {extra} more", { heard: asked - missed, asked, extra }) : say("{heard} of {asked}", { heard: asked - missed, asked })],
    [say("Tempo"), Math.abs(drift) < 0.0005 ? say("as asked") : drift > 0 ? say("{percent} faster", { percent: percent(drift) }) : say("{percent} slower", { percent: percent(drift) })],
    [say("Around a steady beat"), ms(spread)],
    ...(accents === null ? [] : [[say("Accents over taps"), db(accents)]]),
    ...(even === null ? [] : [[say("Taps around their middle"), say("{count} dB", { count: decimal(even) })]]),
    ...(louder ? [[say("Louder hand"), Math.abs(louder.by) < 0.5 ? say("neither") : `${side(louder.by)}, ${db(louder.by)}`]] : []),
    ...(later ? [[say("Later hand"), Math.abs(later.by) < 1 ? say("neither") : `${side(later.by)}, ${ms(later.by)}`]] : []),
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
  if (isMidi) return strokes.length === 0 ? say("No stroke came from the pad. See that it is switched on and connected.") : "";
  if (!hears) return say("The microphone gives no sound. Another program may be using it.");
  if (strokes.length < Math.min(4, asked / 4)) {
    return say("Hardly a stroke was heard. Lay the device nearer, on something soft, with its microphone towards the pad.");
  }
  if (clipped > CLIPPED_SHARE) {
    return say("It is too loud for the microphone, so loud and soft can’t be told apart. Lay the device further away.");
  }
  const over = strokes.map((stroke) => stroke.over).sort((one, other) => one - other);
  if (over[over.length >> 1] < OVER_NOISE_DB) {
    return say("The room is too loud: the strokes are lost in it. Turn off what hums, or lay the device nearer to the pad.");
  }
  return "";
}

/** What could not be paired at all. */
export const NOT_THIS = say("That was too far from the exercise to be judged. Play slower, and begin with the first beat after the count-in.");
