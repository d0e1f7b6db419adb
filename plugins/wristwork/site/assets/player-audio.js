/** The audio context, the drum sounds, and the desk that plays them. */

const FETCH_LIMIT_MS = 15000;
const WAKE_LIMIT_MS = 1000;
const HUSH_S = 0.04;
const CHOKE_S = 0.012;

let shared = null;

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
  if (context.state !== "running") {
    const limit = new Promise((resolve) => setTimeout(resolve, WAKE_LIMIT_MS));
    await Promise.race([context.resume().catch(() => {}), limit]);
  }
  if (context.state === "running") return true;
  if (context === shared) shared = null;
  return false;
}

/** The one-shots of the site, fetched when they are first needed. */
export class Shelf {
  #folder;
  #list = null;
  #buffers = new Map();
  #fetching = new Map();

  /** @param {URL} folder where `sounds.json` and the sounds are */
  constructor(folder) {
    this.#folder = folder;
  }

  /** The groups of places of which one silences the others. */
  get chokes() {
    return this.#list?.chokes ?? [];
  }

  /**
   * Fetches what these voices (`[place, level]`) need, and gives the names of the places that have something missing.
   *
   * @param {[string, string][]} voices
   * @param {BaseAudioContext} context
   * @returns {Promise<string[]>}
   */
  async fetch(voices, context) {
    await this.#open();
    const got = await Promise.all(voices.map(([place, level]) => this.#fetchVoice(place, level, context)));
    return [...new Set(voices.filter((_, index) => !got[index]).map(([place]) => place))];
  }

  /** The sound for the `turn`th stroke of a voice: its variants take turns. Null where there is none. */
  buffer(place, level, turn) {
    const here = this.#files(place, level).filter((file) => this.#buffers.has(file));
    return here.length ? this.#buffers.get(here[turn % here.length]) : null;
  }

  #files(place, level) {
    return this.#list?.sounds[place]?.[level] ?? [];
  }

  async #open() {
    this.#list ??= await (await get(new URL("sounds.json", this.#folder))).json();
  }

  async #fetchVoice(place, level, context) {
    const files = this.#files(place, level);
    const got = await Promise.all(files.map((file) => this.#fetchFile(file, context)));
    return files.length > 0 && got.every(Boolean);
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

/** What a volume control from 0 to 100 means as a factor: even steps to the ear, roughly. */
const loudness = (percent) => (percent / 100) ** 2;

/** Plays the sounds of one playing. */
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
    this.#clicks = new GainNode(context, { gain: loudness(clickLevel) });
    this.#clicks.connect(this.#all).connect(context.destination);
  }

  /** Sets the levels while it plays. */
  setLevels({ volume, clickLevel }) {
    const now = this.#context.currentTime;
    this.#all.gain.setTargetAtTime(loudness(volume), now, 0.01);
    this.#clicks.gain.setTargetAtTime(loudness(clickLevel), now, 0.01);
  }

  /**
   * Gives out one sound, to start at its time. Null where it is missing.
   *
   * @param {import("./player-schedule.js").Sound} sound
   */
  play(sound) {
    const buffer = this.#shelf.buffer(sound.place, sound.level, sound.turn);
    if (!buffer) return null;
    const source = this.#context.createBufferSource();
    source.buffer = buffer;
    const gain = new GainNode(this.#context, { gain: sound.gain });
    source.connect(gain).connect(sound.place === "click" ? this.#clicks : this.#all);
    // On a whole sample: between two of them a browser blurs the start of a sound.
    const { sampleRate } = this.#context;
    source.start(Math.max(0, Math.round(sound.time * sampleRate) / sampleRate));
    const voice = { source, gain, time: sound.time };
    this.#choke(voice, sound.place);
    return voice;
  }

  /** Takes back voices that have not begun; what they would have silenced from `time` on rings. */
  cancel(voices, time) {
    const gone = new Set(voices);
    for (const voice of voices) {
      voice?.source.stop();
      voice?.gain.disconnect();
    }
    this.#ringing = this.#ringing.filter(({ voice }) => !gone.has(voice));
    for (const { voice } of this.#ringing) voice.gain.gain.cancelScheduledValues(time);
  }

  /** Silence, soon but without a crack. */
  hush() {
    const now = this.#context.currentTime;
    this.#all.gain.cancelScheduledValues(now);
    this.#all.gain.setTargetAtTime(0, now, HUSH_S / 4);
    setTimeout(() => this.#all.disconnect(), HUSH_S * 2000);
  }

  /** In a choke group a stroke silences what rings, and is silenced by what comes after it. */
  #choke(voice, place) {
    const group = this.#shelf.chokes.findIndex((places) => places.includes(place));
    if (group < 0) return;
    for (const other of this.#ringing.filter((ringing) => ringing.group === group)) {
      if (other.voice.time < voice.time) silence(other.voice, voice.time);
      if (other.voice.time > voice.time) silence(voice, other.voice.time);
    }
    const audible = this.#ringing.filter(({ voice: old }) => old.time > this.#context.currentTime - 8);
    this.#ringing = [...audible, { voice, group }];
  }
}

function silence(voice, time) {
  voice.gain.gain.setTargetAtTime(0, time, CHOKE_S);
}
