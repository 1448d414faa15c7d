/** Asking for the pieces that are kept. */

import { Refused, ask, send } from "./plan.js";

/** @typedef {import("../types.js").PieceBody} PieceBody */
/** @typedef {import("../types.js").PieceOpen} PieceOpen */
/** @typedef {import("../types.js").Content} Content */
/** @typedef {import("../types.js").VersionBody} VersionBody */
/** @typedef {import("../types.js").FormBody} FormBody */
/** @typedef {import("../types.js").FaultView} FaultView */

/** @param {boolean} away @returns {Promise<PieceBody[]>} @throws {Refused} */
export async function askPieces(away) {
  return (await (await ask(`/api/pieces${away ? "?putAway=true" : ""}`)).json()).pieces;
}

/** @returns {Promise<FormBody[]>} @throws {Refused} */
export async function askForms() {
  return (await (await ask("/api/forms")).json()).forms;
}

/** The demo: a piece with its shop, rack and room. @returns {Promise<Content>} @throws {Refused} */
export async function askDemo() {
  return (await ask("/api/demo")).json();
}

/** @param {{form?: string, content?: Content, name?: string, why?: string, plannedFor?: import("../lib/planned-for.js").Choice[]}} fresh @returns {Promise<PieceOpen>} @throws {Refused} */
export async function beginPiece(fresh) {
  return (await send("/api/pieces", fresh)).json();
}

/** @param {number} number @returns {Promise<PieceOpen>} @throws {Refused} */
export async function openPiece(number) {
  return (await ask(`/api/pieces/${number}`)).json();
}

/** @param {number} number @param {{name?: string, putAway?: boolean}} change @returns {Promise<PieceBody>} @throws {Refused} */
export async function changePiece(number, change) {
  return (await send(`/api/pieces/${number}`, change, "PATCH")).json();
}

/**
 * Save; where somebody saved meanwhile, what both have is told instead.
 *
 * @param {number} number
 * @param {Content} content
 * @param {number} parent
 * @param {string} why
 * @returns {Promise<PieceOpen>}
 * @throws {Refused}
 */
export async function savePiece(number, content, parent, why) {
  return (await send(`/api/pieces/${number}/versions`, { content, parent, why })).json();
}

/** @param {number} number @param {"undo" | "redo"} way @param {number} parent @returns {Promise<PieceOpen>} @throws {Refused} */
export async function stepPiece(number, way, parent) {
  return (await send(`/api/pieces/${number}/${way}`, { parent })).json();
}

/** @param {number} number @returns {Promise<VersionBody[]>} @throws {Refused} */
export async function askVersions(number) {
  return (await (await ask(`/api/pieces/${number}/versions`)).json()).versions;
}

/** @param {number} number @param {number} version @param {number} parent @returns {Promise<PieceOpen>} @throws {Refused} */
export async function restoreVersion(number, version, parent) {
  return (await send(`/api/pieces/${number}/restore`, { version, parent, why: `Version ${version} again` })).json();
}

/** @param {Content} content @returns {Promise<{draft: string, errors: FaultView[]}>} @throws {Refused} */
export async function layDown(content) {
  return (await send("/api/drafts", content)).json();
}

/**
 * Hold what is typed beside the piece, with sizes written into it; where the piece was changed since, what both have
 * is told instead.
 *
 * @param {number} number
 * @param {{content: Content, parent: number, sizes: Record<string, string>}} typed
 * @returns {Promise<import("../types.js").TypedBody>}
 * @throws {Refused}
 */
export async function askTyped(number, typed) {
  return (await send(`/api/pieces/${number}/typed`, typed)).json();
}

/** A small picture of a piece or a form; empty where it has faults. @param {string} address @returns {Promise<string>} */
export async function askPicture(address) {
  try {
    return await (await ask(address)).text();
  } catch (error) {
    if (error instanceof Refused) return "";
    throw error;
  }
}

/** The number of the piece whose document this is, at any of its versions; 0 where none is kept. @param {string} path */
export function pieceOf(path) {
  return Number(/^\/pieces\/(\d+)\//.exec(path)?.[1] ?? 0);
}

/** The number of the piece that may be changed here; 0 where it is not kept, or an older version. @param {string} path */
export function numberOf(path) {
  return /^\/pieces\/\d+\/versions\/\d/.test(path) ? 0 : pieceOf(path);
}
