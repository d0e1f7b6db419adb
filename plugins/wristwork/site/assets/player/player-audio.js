/** The audio context, the drum sounds, and the desk that plays them. */

const FETCH_LIMIT_MS = 15000;
const WAKE_LIMIT_MS = 1000;
const HUSH_S = 0.04;
const LONGEST_RING_S = 6;

// So long after the last sound the context goes to rest, to spare a phone's battery.
const REST_MS = 20000;

let shared = null;
let resting = 0;

/** The page's one audio context, made at the first call (which must come from a press), or null. */
export function audioContext() {
  const Context = window.AudioContext ?? window.webkitAudioContext;
  if (!shared && Context) {
    // Without this some phones let their silent switch mute the page.
    if (navigator.audioSession) navigator.audioSession.type = "playback";
    shared = new Context({ latencyHint: "interactive" });
  }
  return shared;
}

/** Sets the context going. False if it does not start; then the next press tries a fresh one. */
export async function wake(context) {
  clearTimeout(resting);
  if (context.state !== "running") {
    const limit = new Promise((resolve) => setTimeout(resolve, WAKE_LIMIT_MS));
    await Promise.race([context.resume().catch(() => {}), limit]);
  }
  if (context.state === "running") return true;
  if (context === shared) shared = null;
  return false;
}

/** Lets the context rest a while after a playing, unless the next one begins. */
export function restSoon(context) {
  clearTimeout(resting);
  resting = setTimeout(() => context.suspend(), REST_MS);
}

/** The one-shots of the site, fetched when they are first needed. Their list says which file is what. */
export class Shelf {
  #folder;
  #list = null;
  #buffers = new Map();
  #fetching = new Map();

  /** @param {URL} folder where `sounds.json` and the sounds are */
  constructor(folder) {
    this.#folder = folder;
  }

  /** How a buzz bounces and a drag closes, and where the safety stage begins; there once something was fetched. */
  get rules() {
    const { buzz, drag, safety } = this.#list;
    return { buzz, drag, safety };
  }

  /** Which places a stroke on this one silences, and how many seconds that takes. */
  chokes(place) {
    return { places: this.#list.chokes[place] ?? [], seconds: this.#list.choke_seconds };
  }

  /**
   * Fetches what these voices (`[place, level]`) need, and gives the names of the places that have something missing.
   *
   * @param {[string, string][]} voices
   * @param {BaseAudioContext} context
   * @returns {Promise<string[]>}
   */
  async fetch(voices, context) {
    this.#list ??= await (await get(new URL("sounds.json", this.#folder))).json();
    const got = await Promise.all(voices.map(([place, level]) => this.#fetchVoice(place, level, context)));
    return [...new Set(voices.filter((_, index) => !got[index]).map(([place]) => place))];
  }

  /**
   * What to start together for a stroke: its own part, and the ring that strokes share.
   *
   * @returns {{buffer: AudioBuffer, gain: number}[]}
   */
  parts(stroke) {
    const sounds = this.#sounds(stroke.place, stroke.level).filter(([[file]]) => this.#buffers.has(file));
    const parts = sounds[soundInTurn(sounds.length, stroke, this.#list.two_hands)] ?? [];
    return parts
      .map(([file, gain]) => ({ buffer: this.#buffers.get(file), gain }))
      .filter((part) => part.buffer);
  }

  #sounds(place, level) {
    return this.#list.sounds[place]?.[level] ?? [];
  }

  async #fetchVoice(place, level, context) {
    const sounds = this.#sounds(place, level);
    const files = new Set(sounds.flat().map(([file]) => file));
    const got = await Promise.all([...files].map((name) => this.#fetchFile(name, context)));
    return sounds.length > 0 && got.every(Boolean);
  }

  #fetchFile(file, context) {
    if (!this.#fetching.has(file)) this.#fetching.set(file, this.#decode(file, context));
    return this.#fetching.get(file);
  }

  async #decode(file, context) {
    try {
      const data = await (await get(new URL(file, this.#folder))).arrayBuffer();
      this.#buffers.set(file, await context.decodeAudioData(data));
      return true;
    } catch {
      this.#fetching.delete(file); // the next press tries again
      return false;
    }
  }
}

async function get(address) {
  const answer = await fetch(address, { signal: AbortSignal.timeout(FETCH_LIMIT_MS) });
  if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
  return answer;
}

/**
 * Which of `count` sounds a stroke takes. From `twoHands` of them on the right hand takes every other one from the first
 * on, the left hand the rest.
 */
function soundInTurn(count, { turn, handTurn, limb }, twoHands) {
  if (!limb?.endsWith("hand") || count < twoHands) return turn % count;
  const first = limb === "right hand" ? 0 : 1;
  return first + 2 * (handTurn % Math.ceil((count - first) / 2));
}

// The safety stage is drawn up to so many times full scale.
const HIGHEST = 8;
const CURVE_POINTS = 8193;

/** Bends what several limbs add up to above the knee towards the ceiling; below the knee nothing is touched. */
function safetyStage(context, { knee_db: kneeDb, ceiling_db: ceilingDb }) {
  const knee = 10 ** (kneeDb / 20);
  const room = 10 ** (ceilingDb / 20) - knee;
  const curve = Float32Array.from({ length: CURVE_POINTS }, (_, index) => {
    const value = HIGHEST * ((2 * index) / (CURVE_POINTS - 1) - 1);
    const size = Math.abs(value);
    return size <= knee ? value : Math.sign(value) * (knee + room * Math.tanh((size - knee) / room));
  });
  const input = new GainNode(context, { gain: 1 / HIGHEST });
  input.connect(new WaveShaperNode(context, { curve })).connect(context.destination);
  return input;
}

/** What a control from 0 to 100 means as a factor: about even steps to the ear. */
const loudness = (percent) => (percent / 100) ** 2;

// At this place of its control the click is as loud as in the audio files.
const CLICK_AS_MADE = 80;
const clickLoudness = (percent) => loudness(percent) / loudness(CLICK_AS_MADE);

/**
 * Plays the sounds of one playing.
 *
 * @typedef {{place: string, time: number, sources: AudioBufferSourceNode[], gains: GainNode[]}} Voice
 */
export class Desk {
  #context;
  #shelf;
  #all;
  #clicks;
  #ringing = [];

  /**
   * @param {BaseAudioContext} context
   * @param {Shelf} shelf
   * @param {{volume: number, clickLevel: number}} levels each 0 to 100
   */
  constructor(context, shelf, { volume, clickLevel }) {
    this.#context = context;
    this.#shelf = shelf;
    this.#all = new GainNode(context, { gain: loudness(volume) });
    this.#clicks = new GainNode(context, { gain: clickLoudness(clickLevel) });
    this.#clicks.connect(this.#all).connect(safetyStage(context, shelf.rules.safety));
  }

  /** Sets the levels while it plays. */
  setLevels({ volume, clickLevel }) {
    const now = this.#context.currentTime;
    this.#all.gain.setTargetAtTime(loudness(volume), now, 0.01);
    this.#clicks.gain.setTargetAtTime(clickLoudness(clickLevel), now, 0.01);
  }

  /**
   * Gives out one sound, to start at its time.
   *
   * @param {import("./player-schedule.js").Sound} sound
   * @returns {Voice} with no sources where the sound is missing
   */
  play(sound) {
    const { place } = sound;
    // On a whole sample: between two of them a browser blurs the start of a sound.
    const { sampleRate } = this.#context;
    const time = Math.max(0, Math.round(sound.time * sampleRate) / sampleRate);
    const voice = { place, time, sources: [], gains: [] };
    for (const part of this.#shelf.parts(sound)) {
      const source = this.#context.createBufferSource();
      source.buffer = part.buffer;
      const gain = new GainNode(this.#context, { gain: part.gain * sound.gain });
      source.connect(gain).connect(place === "click" ? this.#clicks : this.#all);
      source.start(time);
      voice.sources.push(source);
      voice.gains.push(gain);
    }
    this.#choke(voice);
    return voice;
  }

  /** Takes back voices that have not begun; what they would have silenced from `time` on rings. */
  cancel(voices, time) {
    const gone = new Set(voices);
    for (const source of voices.flatMap((voice) => voice.sources)) source.stop();
    this.#ringing = this.#ringing.filter((voice) => !gone.has(voice));
    for (const gain of this.#ringing.flatMap((voice) => voice.gains)) gain.gain.cancelScheduledValues(time);
  }

  /** Silence, soon but without a crack. */
  hush() {
    const now = this.#context.currentTime;
    this.#all.gain.cancelScheduledValues(now);
    this.#all.gain.setTargetAtTime(0, now, HUSH_S / 4);
    setTimeout(() => this.#all.disconnect(), HUSH_S * 2000);
  }

  /** Some strokes silence what rings from before; sounds are not always given out in the order of time. */
  #choke(voice) {
    const recent = this.#ringing.filter(({ time }) => time > voice.time - LONGEST_RING_S);
    for (const other of recent) {
      const [first, second] = other.time < voice.time ? [other, voice] : [voice, other];
      const { places, seconds } = this.#shelf.chokes(second.place);
      if (first.time < second.time && places.includes(first.place)) {
        for (const { gain } of first.gains) gain.setTargetAtTime(0, second.time, seconds / 5);
      }
    }
    this.#ringing = [...recent, voice];
  }
}
