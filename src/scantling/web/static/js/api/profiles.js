/** Asking for shops and rooms that are kept, and having them kept otherwise. */

import { ask, send } from "./plan.js";

/** @typedef {import("../profile-types.js").Kind} Kind */
/** @typedef {import("../profile-types.js").ProfileBody} ProfileBody */
/** @typedef {import("../profile-types.js").ProfileVersionBody} ProfileVersionBody */
/** @typedef {import("../profile-types.js").KnownRooms} KnownRooms */
/** @typedef {import("../profile-types.js").RoomYearBody} RoomYearBody */

/** @param {Kind} kind @param {boolean} [away] @returns {Promise<ProfileBody[]>} @throws {import("./plan.js").Refused} */
export async function askKept(kind, away = false) {
  return (await (await ask(`/api/${kind}${away ? "?putAway=true" : ""}`)).json()).kept;
}

/** One with all that can be set in it. @param {Kind} kind @param {number} number @returns {Promise<any>} @throws {import("./plan.js").Refused} */
export async function openKept(kind, number) {
  return (await ask(`/api/${kind}/${number}`)).json();
}

/** @param {Kind} kind @param {{text?: string, like?: number, known?: string, name?: string}} fresh @returns {Promise<any>} @throws {import("./plan.js").Refused} */
export async function beginKept(kind, fresh) {
  return (await send(`/api/${kind}`, fresh)).json();
}

/**
 * Change one; the answer is it as it is kept then.
 *
 * @param {Kind} kind
 * @param {number} number
 * @param {"settings" | "machines" | "entries" | "entries/remove" | "air" | "versions" | "undo" | "redo" | "restore"} what
 * @param {Record<string, unknown>} change with `parent`, the version it is made from
 * @returns {Promise<any>}
 * @throws {import("./plan.js").Refused}
 */
export async function changeKept(kind, number, what, change) {
  return (await send(`/api/${kind}/${number}/${what}`, change)).json();
}

/** @param {Kind} kind @param {number} number @param {boolean} putAway @returns {Promise<ProfileBody>} @throws {import("./plan.js").Refused} */
export async function putAway(kind, number, putAway) {
  return (await send(`/api/${kind}/${number}`, { putAway }, "PATCH")).json();
}

/** @param {Kind} kind @param {number} number @returns {Promise<ProfileVersionBody[]>} @throws {import("./plan.js").Refused} */
export async function askKeptVersions(kind, number) {
  return (await (await ask(`/api/${kind}/${number}/versions`)).json()).versions;
}

/** @returns {Promise<KnownRooms>} @throws {import("./plan.js").Refused} */
export async function askKnownRooms() {
  return (await ask("/api/rooms/known")).json();
}

/** @param {string} name @param {string} units @returns {Promise<RoomYearBody>} @throws {import("./plan.js").Refused} */
export async function askRoomYear(name, units) {
  return (await ask(`/api/rooms/known/year?${new URLSearchParams({ name, units })}`)).json();
}
