/** Asking for the work, and telling what was done. */

import { ask, send } from "./plan.js";

/** @typedef {import("../types.js").WorkView} WorkView */
/** @typedef {import("../types.js").BenchBody} BenchBody */
/** @typedef {import("../types.js").BenchEvent} BenchEvent */

/** The work, and the version of the piece it is that of. @param {string} units to show lengths in; empty for those of the piece @returns {Promise<WorkView>} @throws {import("./plan.js").Refused} */
export async function askWork(units) {
  const answer = await ask(units ? `api/work?units=${units}` : "api/work");
  const version = Number(answer.headers.get("piece-version"));
  return { ...(await answer.json()), ...(version ? { version } : {}) };
}

/** @param {number} number @returns {Promise<BenchBody>} @throws {import("./plan.js").Refused} */
export async function askBench(number) {
  return (await ask(`/api/pieces/${number}/bench`)).json();
}

/**
 * Take back what was measured of a subject: all there is, or with `at` what was measured until then; under one key once.
 *
 * @param {number} number
 * @param {{subject: string, at?: string, key?: string}} back
 * @returns {Promise<BenchBody>}
 * @throws {import("./plan.js").Refused}
 */
export async function takeBackMeasured(number, { subject, at, key }) {
  return (await send(`/api/pieces/${number}/bench/take-back`, { subject, at, key })).json();
}

/** @param {number} number @param {BenchEvent} event @returns {Promise<BenchBody>} @throws {import("./plan.js").Refused} */
export async function tellBench(number, event) {
  return (await send(`/api/pieces/${number}/bench`, event)).json();
}
