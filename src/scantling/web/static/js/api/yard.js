/** Asking what to do with a board. */

import { send } from "./plan.js";
import { writeGiven } from "../lib/given.js";

/** @typedef {import("../types.js").YardView} YardView */
/** @typedef {import("../types.js").TypedBoard} TypedBoard */
/** @typedef {import("../types.js").Given} Given */

/**
 * @param {readonly TypedBoard[]} pile
 * @param {TypedBoard | null} lifted
 * @param {Given} given
 * @returns {Promise<YardView>}
 * @throws {import("./plan.js").Refused}
 */
export async function askYard(pile, lifted, given) {
  const response = await send(`api/yard${writeGiven(given)}`, { pile, lifted });
  return response.json();
}

/**
 * The pile as a rack file.
 *
 * @param {readonly TypedBoard[]} pile
 * @param {Given} given
 * @returns {Promise<Blob>}
 * @throws {import("./plan.js").Refused}
 */
export async function askRackFile(pile, given) {
  const response = await send(`api/yard/rack.csv${writeGiven(given)}`, { pile, lifted: null });
  return response.blob();
}
