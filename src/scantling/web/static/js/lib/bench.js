/** The work at the bench: which step is next, what can be done while something dries, and clocks. */

/** @typedef {import("../types.js").BenchBody} BenchBody */
/** @typedef {import("../types.js").BenchEvent} BenchEvent */
/** @typedef {import("../types.js").StepCard} StepCard */

/**
 * Steps that can be done now: not done, and all before them done.
 *
 * @param {readonly StepCard[]} steps
 * @param {ReadonlySet<string>} done
 * @returns {StepCard[]}
 */
export function ready(steps, done) {
  return steps.filter((step) => !done.has(step.key) && step.needs.every(({ key }) => done.has(key)));
}

/**
 * Steps that wait for something to dry or rest, each with what is left of it.
 *
 * @param {readonly StepCard[]} steps
 * @param {Readonly<Record<string, string>>} doneAt when each step was done
 * @param {number} now [ms]
 * @returns {Array<{step: StepCard, leftMin: number, clampedMin: number}>} what is left, and of that in clamps
 */
export function resting(steps, doneAt, now) {
  return steps.flatMap((step) => {
    const at = doneAt[step.key];
    if (!at || !step.waitMin) return [];
    const goneMin = Math.max(0, (now - Date.parse(at)) / 60_000);
    const leftMin = step.waitMin - goneMin;
    return leftMin > 0 ? [{ step, leftMin, clampedMin: Math.max(0, step.clampedMin - goneMin) }] : [];
  });
}

/**
 * The same, what comes out of its clamps or is dry soonest first.
 *
 * @param {ReturnType<typeof resting>} rests
 * @returns {ReturnType<typeof resting>}
 */
export function soonestFirst(rests) {
  const until = (/** @type {ReturnType<typeof resting>[number]} */ { clampedMin, leftMin }) => clampedMin || leftMin;
  return [...rests].sort((one, other) => until(one) - until(other));
}

/**
 * What a step waits for that is done but still dries or rests.
 *
 * @param {StepCard} step
 * @param {ReturnType<typeof resting>} rests
 * @returns {ReturnType<typeof resting>}
 */
export function heldBy(step, rests) {
  return rests.filter((rest) => step.needs.some(({ key }) => key === rest.step.key));
}

/**
 * The step to show: the one asked for, else the first that can be done and waits for nothing, else the first ready.
 *
 * @param {readonly StepCard[]} steps
 * @param {Readonly<Record<string, string>>} doneAt
 * @param {string} asked its key, or empty
 * @param {number} now [ms]
 * @returns {StepCard | undefined} none when all are done
 */
export function current(steps, doneAt, asked, now) {
  const chosen = steps.find((step) => step.key === asked);
  if (chosen) return chosen;
  const can = ready(steps, new Set(Object.keys(doneAt)));
  const rests = resting(steps, doneAt, now);
  return can.find((step) => !heldBy(step, rests).length) ?? can[0];
}

/**
 * The step to show where one is in hand: it stays until it is done or has to wait, so that nothing that dries meanwhile
 * puts another in its place under the hand.
 *
 * @param {readonly StepCard[]} steps
 * @param {Readonly<Record<string, string>>} doneAt
 * @param {{asked: string, inHand: string}} keys of the one asked for and of the one on show, empty for none
 * @param {number} now [ms]
 * @returns {StepCard | undefined} none when all are done
 */
export function staying(steps, doneAt, { asked, inHand }, now) {
  const rests = resting(steps, doneAt, now);
  const can = ready(steps, new Set(Object.keys(doneAt))).filter((step) => !heldBy(step, rests).length);
  return current(steps, doneAt, asked || (can.some(({ key }) => key === inHand) ? inHand : ""), now);
}

/**
 * A stretch of time as a clock shows it.
 *
 * @param {number} minutes
 * @returns {string} `2 d 3 h`, `3 h 05`, `4:07`
 */
export function clock(minutes) {
  const whole = Math.max(0, Math.floor(minutes));
  if (whole >= 1440) return `${Math.floor(whole / 1440)} d ${Math.floor((whole % 1440) / 60)} h`;
  if (whole >= 60) return `${Math.floor(whole / 60)} h ${String(whole % 60).padStart(2, "0")}`;
  const seconds = Math.max(0, Math.floor((minutes - whole) * 60));
  return `${whole}:${String(seconds).padStart(2, "0")}`;
}

/**
 * A measured size as it is sent, for the server to read: as typed, a bare number with the unit of its field.
 *
 * @param {string} text `47.6`, `1 7/8`, `1 7/8 in`
 * @param {string} units `mm` or `in`
 * @returns {string} empty where there is no figure in it
 */
export function typedSize(text, units) {
  const typed = text.trim();
  if (!/[\d½¼¾⅛⅜⅝⅞]/.test(typed)) return "";
  return /^[^\p{L}"″”'′’%]+$/u.test(typed) ? `${typed} ${units}` : typed;
}

/**
 * A measured size as it stands in its field.
 *
 * @param {string | undefined} written with its unit
 * @param {string} units of the field
 * @returns {string} without the unit the field has anyway
 */
export function shownSize(written, units) {
  const end = ` ${units}`;
  return written?.endsWith(end) ? written.slice(0, -end.length) : (written ?? "");
}

/**
 * How things stand after an event that is not sent yet.
 *
 * @param {BenchBody | null} bench
 * @param {BenchEvent} event
 * @returns {BenchBody}
 */
export function after(bench, event) {
  const { done, measured, running, ranMin } = bench ?? { done: {}, measured: {}, running: {}, ranMin: {} };
  const { [event.subject]: began, ...others } = running;
  switch (event.kind) {
    case "step done":
      return { done: { ...done, [event.subject]: event.at }, measured, running, ranMin };
    case "step open": {
      const { [event.subject]: _, ...left } = done;
      return { done: left, measured, running, ranMin };
    }
    case "measured":
      return { done, measured: { ...measured, [event.subject]: { written: event.written ?? `${event.figure} ${event.unit}`, at: event.at } }, running, ranMin };
    case "taken back": {
      const { [event.subject]: _, ...left } = measured;
      return { done, measured: left, running, ranMin };
    }
    case "timer started":
      return { done, measured, running: { ...running, [event.subject]: event.at }, ranMin };
    case "timer stopped": {
      const ran = began ? (Date.parse(event.at) - Date.parse(began)) / 60_000 : 0;
      return { done, measured, running: others, ranMin: { ...ranMin, [event.subject]: (ranMin[event.subject] ?? 0) + ran } };
    }
    default:
      return { done, measured, running, ranMin };
  }
}
