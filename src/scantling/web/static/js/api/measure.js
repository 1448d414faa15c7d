/** Asking what lies between two edges. */

import { writeGiven } from "../lib/given.js";
import { send } from "./plan.js";

/** @typedef {[number, number, number]} Triple */

/**
 * @param {[Triple, Triple]} first in meters, as the piece stands whole
 * @param {[Triple, Triple]} second
 * @param {import("../types.js").Given} given
 * @param {string} from where the design stands, as of the shape
 * @returns {Promise<import("../types.js").MeasureView>}
 * @throws {import("./plan.js").Refused}
 */
export async function askMeasure(first, second, given, from) {
  const response = await send(`${from}api/measure${writeGiven(given)}`, { first, second });
  return response.json();
}
