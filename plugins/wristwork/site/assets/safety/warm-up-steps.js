/** A warm-up for somebody who knows so much: steps that need more are left out or give way to simpler ones. */

/**
 * @typedef {{name: string, do: string, feel: string, letters: string, needs: string[], instead?: Step, seconds?: number}} Step
 * @typedef {{title: string, minutes: number, steps: Step[]}} Routine
 */

/**
 * The routine with the steps that somebody knows, as long as it was: what is left out gives its time to the others.
 *
 * @param {Routine} routine
 * @param {string[]|null} known null for all there is
 * @returns {Routine}
 */
export function fitted(routine, known) {
  if (known === null) return routine;
  const kept = routine.steps.map(({ seconds, ...step }) => ({ step: possible(step, known), seconds })).filter(({ step }) => step);
  const free = sum(routine.steps) - sum(kept);
  const share = Math.floor(free / kept.length);
  const steps = kept.map(({ step, seconds }, index) => ({
    ...step,
    seconds: seconds + share + (index === kept.length - 1 ? free - share * kept.length : 0),
  }));
  return { ...routine, steps };
}

const sum = (steps) => steps.reduce((all, { seconds }) => all + seconds, 0);

/** The step, or the one in its place that asks for no more than is known; null where there is none. */
function possible(step, known) {
  if (step.needs.every((need) => known.includes(need))) return step;
  return step.instead ? possible(step.instead, known) : null;
}
