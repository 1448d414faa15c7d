/** Asking what the piece file says of a part, and writing it otherwise. */

import { ask, send } from "./plan.js";

/** @typedef {import("../types.js").EntryList} EntryList */
/** @typedef {import("../types.js").MeetingList} MeetingList */
/** @typedef {import("../types.js").WoodList} WoodList */
/** @typedef {import("../types.js").PieceOpen} PieceOpen */

/** @param {number} number @param {string} part @returns {Promise<EntryList>} @throws {import("./plan.js").Refused} */
export async function askEntries(number, part) {
  return (await ask(`/api/pieces/${number}/entries/${encodeURIComponent(part)}`)).json();
}

/** @param {number} number @returns {Promise<MeetingList>} @throws {import("./plan.js").Refused} */
export async function askMeetings(number) {
  return (await ask(`/api/pieces/${number}/meetings`)).json();
}

/** @param {number} number @returns {Promise<WoodList>} @throws {import("./plan.js").Refused} */
export async function askWoods(number) {
  return (await ask(`/api/pieces/${number}/woods`)).json();
}

/** @param {number} number @returns {Promise<import("../part-types.js").BriefBody>} @throws {import("./plan.js").Refused} */
export async function askBrief(number) {
  return (await ask(`/api/pieces/${number}/brief`)).json();
}

/**
 * Change the file of a piece; the answer is the piece as it is kept then.
 *
 * @param {number} number
 * @param {"entries" | "entries/remove" | "remedies" | "copies" | "joints" | "woods" | "brief"} what
 * @param {Record<string, unknown>} change with `parent`, the version it is made from
 * @returns {Promise<PieceOpen>}
 * @throws {import("./plan.js").Refused}
 */
export async function changeEntry(number, what, change) {
  return (await send(`/api/pieces/${number}/${what}`, change)).json();
}
