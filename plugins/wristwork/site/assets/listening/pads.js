/** Strokes of electronic pads, by MIDI: they say themselves when and how hard they were struck. */

import { say } from "../base/words.js";
import { Deaf } from "./ear.js";

const NO_MIDI = say("The pad was not allowed, or this browser does not reach it.");
const NO_PAD = say("No pad is connected by MIDI. Connect it, switch it on, then start again.");
const NOTE_ON = 0x90;
const LOUDEST_VELOCITY = 127;
// A pad sends twice for one stroke now and then.
const CLOSEST_S = 0.015;

/**
 * Listens to every pad that is connected.
 *
 * @param {AudioContext} context
 * @param {import("./ear.js").Hearer} hearer
 * @returns {Promise<import("./ear.js").Ear>} rejects with `Deaf`
 */
export async function openPads(context, hearer) {
  const access = await /** @type {any} */ (navigator).requestMIDIAccess().catch(() => {
    throw new Deaf(NO_MIDI);
  });
  const inputs = [...access.inputs.values()];
  if (inputs.length === 0) throw new Deaf(NO_PAD);
  let last = -1;
  const hear = ({ data, timeStamp }) => {
    const [status, , velocity] = data;
    if ((status & 0xf0) !== NOTE_ON || velocity === 0) return;
    const time = context.currentTime + (timeStamp - performance.now()) / 1000;
    if (time - last < CLOSEST_S) return;
    last = time;
    hearer.stroke({ time, level: levelOf(velocity), over: Infinity });
  };
  for (const input of inputs) input.addEventListener("midimessage", hear);
  hearer.condition({ clipped: 0, hears: true });
  return {
    close() {
      for (const input of inputs) input.removeEventListener("midimessage", hear);
    },
  };
}

/** Loudness goes with the square of the velocity in the usual curve of a pad. */
const levelOf = (velocity) => 40 * Math.log10(velocity / LOUDEST_VELOCITY);
