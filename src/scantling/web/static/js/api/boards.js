/** Asking for the boards of a piece, and telling what is marked on them. */

import { ask, send } from "./plan.js";
import { writeGiven } from "../lib/given.js";

/** @typedef {import("../board-types.js").BoardsView} BoardsView */
/** @typedef {import("../board-types.js").NotesView} NotesView */
/** @typedef {import("../board-types.js").JudgedView} JudgedView */
/** @typedef {import("../board-types.js").TypedMark} TypedMark */
/** @typedef {import("../types.js").Given} Given */

/** @param {Given} given @returns {Promise<BoardsView>} @throws {import("./plan.js").Refused} */
export async function askBoards(given) {
  return (await ask(`api/boards${writeGiven(given)}`)).json();
}

/** @param {Record<string, unknown>} act @param {Given} given @returns {Promise<NotesView>} @throws {import("./plan.js").Refused} */
export async function tellAct(act, given) {
  return (await send(`api/boards${writeGiven(given)}`, act)).json();
}

/** @param {"undo" | "redo" | "write"} way @param {number} parent @returns {Promise<NotesView>} @throws {import("./plan.js").Refused} */
export async function stepNotes(way, parent) {
  return (await send(`api/boards/${way}`, { parent })).json();
}

/** @param {Record<string, unknown>} put @param {Given} given @returns {Promise<JudgedView>} @throws {import("./plan.js").Refused} */
export async function askPlace(put, given) {
  return (await send(`api/boards/judge${writeGiven(given)}`, put)).json();
}

/**
 * What a rectangle drawn on a board measures.
 *
 * @param {string} drawing
 * @param {readonly [number, number]} one
 * @param {readonly [number, number]} other
 * @param {Given} given
 * @returns {Promise<TypedMark>}
 * @throws {import("./plan.js").Refused}
 */
export async function measureMark(drawing, one, other, given) {
  return (await send(`api/boards/mark${writeGiven(given)}`, { drawing, one, other })).json();
}

/** @param {string} seconds @param {Given} given */
export function searchAddress(seconds, given) {
  return `api/boards/search${writeGiven({ ...given, seconds })}`;
}
