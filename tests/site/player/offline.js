// Renders a playing through the very modules that play live, faster than time and without a sound card.

const modules = new URL("assets/wristwork/0123456789/", location.href);
const load = (name) => import(new URL(name, modules));

/** What is not 0 in a rendering, as [sample, value]. */
export async function render(call) {
  const samples = await rendered(call);
  return [...samples.entries()].filter(([, value]) => Math.abs(value) > 1e-6);
}

/** The values of a rendering at some seconds. */
export async function valuesAt(seconds, call) {
  const samples = await rendered(call);
  return seconds.map((second) => samples[Math.round(second * 44100)]);
}

/** The largest value of a rendering, and the sample where it first comes near a hundredth of it. */
export async function peakAndStart(call) {
  const loud = (await rendered(call)).map(Math.abs);
  const peak = loud.reduce((one, other) => Math.max(one, other));
  return [peak, loud.findIndex((value) => value > peak / 100)];
}

/** The samples of a playing; `changes` are [seconds, wish, tempo or null]. */
async function rendered({ exercise, wish, tempo, countIn = true, seconds, changes = [], every = 0.1 }) {
  const { Desk, Shelf } = await load("player-audio.js");
  const { readScore } = await load("player-schedule.js");
  const { Transport } = await load("player-transport.js");
  const context = new OfflineAudioContext(1, Math.round(seconds * 44100), 44100);
  const shelf = new Shelf(new URL("assets/wristwork/sounds/", location.href));
  const score = readScore(exercise);
  const missing = await shelf.fetch([...score.voices, ["click", "high"], ["click", "low"]], context);
  if (missing.length) throw new Error(`missing: ${missing}`);
  const desk = new Desk(context, shelf, { volume: 100, clickLevel: 80 });
  const transport = new Transport(context, desk, { ...score, ...shelf.rules });
  const due = [...changes];
  for (let at = every; at < seconds; at += every) {
    context.suspend(at).then(() => {
      while (due.length && due[0][0] <= at) transport.change(...due.shift().slice(1));
      transport.tick();
      context.resume();
    });
  }
  transport.start(wish, tempo, countIn);
  transport.soundsAreHere();
  return (await context.startRendering()).getChannelData(0);
}

/** What `advance` gives out, window by window, with the anchors it ends with. */
export async function giveOut({ exercise, wish, tempo, countIn = true, until, every = 0.37, changes = [] }) {
  const { advance, readScore, startRun, withTempo } = await load("player-schedule.js");
  const score = readScore(exercise);
  const everything = [];
  let run = startRun(score, 1, tempo, countIn);
  for (let time = 1 + every; time < until + every; time += every) {
    const { sounds, run: next } = advance(score, run, { end: Infinity, ...wish }, Math.min(time, until));
    everything.push(...sounds);
    run = next;
    if (changes.length && changes[0][0] <= time) run = withTempo(run, changes.shift()[1]);
  }
  return { sounds: everything, anchors: run.anchors };
}
