/**
 * Strokes heard through the microphone. Nothing is recorded, kept or sent: of the sound only the moments and levels of
 * strokes leave the audio thread.
 *
 * @typedef {object} Ear
 * @property {() => void} close lets go of the device
 * @property {boolean} [levelsItself] does it change loudness though it was asked not to?
 * @typedef {object} Hearer what an ear tells
 * @property {(stroke: import("./stroke-finder.js").Stroke) => void} stroke on the clock of the context
 * @property {(condition: {clipped: number, hears: boolean}) => void} condition once a second
 */

import { say } from "../base/words.js";

/** Why nothing can be heard, in `words` for the reader. */
export class Deaf extends Error {
  constructor(words) {
    super(words);
    this.words = words;
  }
}

const REFUSED = say("The microphone was not allowed. Allow it for this page in the browser’s settings, then start again.");
const NO_MICROPHONE = say("No microphone was found.");
const IN_USE = say("The microphone could not be opened. Another program may be using it.");
const NO_ACCESS = say("This browser gives a page like this one no microphone.");
const LOST = say("The part that listens can’t be reached without a signal. Load the page again when there is one.");

// Each of these would change how loud strokes are, or take them for noise.
const AS_IT_IS = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };

/**
 * Listens through the microphone.
 *
 * @param {AudioContext} context
 * @param {Hearer} hearer
 * @returns {Promise<Ear>} rejects with `Deaf`
 */
export async function openMicrophone(context, hearer) {
  if (!navigator.mediaDevices?.getUserMedia || !context.audioWorklet) throw new Deaf(NO_ACCESS);
  const stream = await navigator.mediaDevices.getUserMedia({ audio: AS_IT_IS }).catch((error) => {
    throw new Deaf({ NotFoundError: NO_MICROPHONE, NotReadableError: IN_USE, AbortError: IN_USE }[error.name] ?? REFUSED);
  });
  try {
    await context.audioWorklet.addModule(new URL("listen-worklet.js", import.meta.url));
  } catch {
    for (const track of stream.getTracks()) track.stop();
    throw new Deaf(LOST);
  }
  const source = context.createMediaStreamSource(stream);
  const finder = new AudioWorkletNode(context, "wristwork-listening", { numberOfOutputs: 0, channelCount: 1, channelCountMode: "explicit" });
  finder.port.onmessage = ({ data }) => {
    if (data.stroke) hearer.stroke(data.stroke);
    else hearer.condition({ clipped: data.condition.clipped, hears: data.hears });
  };
  source.connect(finder);
  return {
    levelsItself: stream.getAudioTracks()[0]?.getSettings().autoGainControl === true,
    close() {
      source.disconnect();
      finder.port.postMessage("over");
      for (const track of stream.getTracks()) track.stop();
    },
  };
}
