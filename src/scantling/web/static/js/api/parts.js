/** Asking what a new part would be, and keeping it. */

import { writeGiven } from "../lib/given.js";
import { ask, send } from "./plan.js";

/** @typedef {import("../part-types.js").PartChoices} PartChoices */
/** @typedef {import("../part-types.js").PartNew} PartNew */
/** @typedef {import("../part-types.js").PartTried} PartTried */
/** @typedef {import("../part-types.js").Preview} Preview */
/** @typedef {import("../types.js").Given} Given */
/** @typedef {import("../types.js").PieceOpen} PieceOpen */

/** @param {number} number @returns {Promise<PartChoices>} @throws {import("./plan.js").Refused} */
export async function askChoices(number) {
  return (await ask(`/api/pieces/${number}/parts/choices`)).json();
}

/** @param {number} number @param {PartNew} part @param {number} parent @returns {Promise<PartTried>} @throws {import("./plan.js").Refused} */
export async function tryPart(number, part, parent) {
  return (await send(`/api/pieces/${number}/parts/try`, { ...part, parent })).json();
}

/** @param {number} number @param {PartNew} part @param {number} parent @returns {Promise<PieceOpen>} @throws {import("./plan.js").Refused} */
export async function keepPart(number, part, parent) {
  return (await send(`/api/pieces/${number}/parts`, { ...part, parent })).json();
}

/**
 * The piece as it would be with a part that is not kept.
 *
 * @param {PartTried} tried
 * @param {Given} given
 * @returns {Promise<Preview>}
 * @throws {import("./plan.js").Refused}
 */
export async function askPreview({ draft, name }, given) {
  const base = `/drafts/${draft}/`;
  return { shape: await (await ask(`${base}api/shape${writeGiven(given)}`)).json(), base, name };
}
