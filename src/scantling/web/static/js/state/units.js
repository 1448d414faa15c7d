/** The unit lengths were last shown in on this computer, for pieces opened later. */

import { UNITS, writeGiven } from "../lib/given.js";
import { keepText, recallText } from "../lib/this-browser.js";

/** @typedef {import("../types.js").Given} Given */

const KNOWN = ["mm", "in", "both"];

/**
 * What an address asks for, with the unit chosen last where it names none; the address then names it.
 *
 * @param {Given} given
 * @returns {Given}
 */
export function inUnitsOfLast(given) {
  const last = unitsOfLast();
  if (given[UNITS] || !last) return given;
  const fuller = Object.freeze({ ...given, [UNITS]: last });
  history.replaceState(null, "", `${location.pathname}${writeGiven(fuller)}${location.hash}`);
  return fuller;
}

/** The unit chosen last; empty where none was. */
export function unitsOfLast() {
  const last = recallText(UNITS);
  return last !== null && KNOWN.includes(last) ? last : "";
}

/** Where it is not kept, the choice lasts as long as the address. @param {string} units */
export function rememberUnits(units) {
  keepText(UNITS, units);
}
