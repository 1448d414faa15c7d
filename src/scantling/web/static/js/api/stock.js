/** Asking for the timber there is, and telling what happens to it. */

import { ask, send } from "./plan.js";

/** @typedef {import("../types.js").StockBody} StockBody */
/** @typedef {import("../types.js").ActBody} ActBody */
/** @typedef {import("../types.js").CutBody} CutBody */

/** @param {string} units @returns {Promise<StockBody>} @throws {import("./plan.js").Refused} */
export async function askStock(units) {
  return (await ask(`/api/stockroom?units=${units}`)).json();
}

/** Everything that was done, the last first. @returns {Promise<ActBody[]>} @throws {import("./plan.js").Refused} */
export async function askActs() {
  return (await (await ask("/api/stockroom/history")).json()).acts;
}

/**
 * @param {"add" | "go" | "keep" | "take-back"} act
 * @param {Record<string, unknown>} body
 * @param {string} units
 * @returns {Promise<StockBody>} what is there after it
 * @throws {import("./plan.js").Refused}
 */
export async function tellStock(act, body, units) {
  return (await send(`/api/stockroom/${act}?units=${units}`, body)).json();
}

/**
 * What sawing a piece takes out and puts in; done where it is really asked for.
 *
 * @param {number} number
 * @param {boolean} really
 * @param {string} units
 * @returns {Promise<CutBody>}
 * @throws {import("./plan.js").Refused}
 */
export async function cutPiece(number, really, units) {
  return (await send(`/api/pieces/${number}/cut?units=${units}`, { really })).json();
}

/** Address of the labels of some boards, of all if none is named. @param {number[]} boards @param {string} units @param {string} paper */
export function labelsAddress(boards, units, paper) {
  const asked = new URLSearchParams([["units", units], ["paper", paper], ...boards.map((number) => ["board", String(number)])]);
  return `/api/stockroom/labels.pdf?${asked}`;
}
