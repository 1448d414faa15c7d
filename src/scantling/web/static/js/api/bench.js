/** Asking for the work, and telling what was done. */

import { ask, send } from "./plan.js";

/** @typedef {import("../types.js").WorkView} WorkView */
/** @typedef {import("../types.js").BenchBody} BenchBody */
/** @typedef {import("../types.js").BenchEvent} BenchEvent */

/** @returns {Promise<WorkView>} @throws {import("./plan.js").Refused} */
export async function askWork() {
  return (await ask("api/work")).json();
}

/** @param {number} number @returns {Promise<BenchBody>} @throws {import("./plan.js").Refused} */
export async function askBench(number) {
  return (await ask(`/api/pieces/${number}/bench`)).json();
}

/** All that was measured of a subject. @param {number} number @param {string} subject @returns {Promise<BenchBody>} @throws {import("./plan.js").Refused} */
export async function takeBackMeasured(number, subject) {
  return (await send(`/api/pieces/${number}/bench/take-back`, { subject })).json();
}

/** @param {number} number @param {BenchEvent} event @returns {Promise<BenchBody>} @throws {import("./plan.js").Refused} */
export async function tellBench(number, event) {
  return (await send(`/api/pieces/${number}/bench`, event)).json();
}
