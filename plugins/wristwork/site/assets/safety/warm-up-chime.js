/** Two soft tones, quiet by intent: heard over a pad, never a shock. */

const LOUDNESS = 0.09;
const TONES = { change: [523.25], end: [523.25, 392] };
const TONE_S = 0.6;

let audio = null;

/** Plays the sound for a change or for the end; silent where the browser has no audio. */
export function chime(kind) {
  if (!window.AudioContext) return;
  audio ??= new AudioContext();
  audio.resume();
  for (const [index, frequency] of TONES[kind].entries()) tone(frequency, audio.currentTime + 0.02 + index * TONE_S * 0.7);
}

function tone(frequency, at) {
  const oscillator = new OscillatorNode(audio, { frequency });
  const gain = new GainNode(audio, { gain: 0 });
  gain.gain.setValueAtTime(0, at);
  gain.gain.linearRampToValueAtTime(LOUDNESS, at + 0.03);
  gain.gain.exponentialRampToValueAtTime(0.0005, at + TONE_S);
  oscillator.connect(gain).connect(audio.destination);
  oscillator.start(at);
  oscillator.stop(at + TONE_S + 0.05);
}
