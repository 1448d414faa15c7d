/** Parameters in the address: what is asked for, and only that. */

/** @typedef {import("../types.js").Given} Given */

/**
 * @param {string} search with or without its question mark
 * @returns {Given}
 */
export function readGiven(search) {
  return Object.freeze(Object.fromEntries(new URLSearchParams(search)));
}

/**
 * @param {Given} given
 * @returns {string} empty, or beginning with a question mark
 */
export function writeGiven(given) {
  const names = Object.keys(given).sort();
  if (names.length === 0) return "";
  return `?${new URLSearchParams(names.map((name) => [name, given[name] ?? ""]))}`;
}

/**
 * The parameters with one changed; a value left empty, or written as it is drawn, asks for nothing.
 *
 * @param {Given} given
 * @param {string} name
 * @param {string} text
 * @param {string} drawn how the value of the file is shown
 * @returns {Given}
 */
export function withValue(given, name, text, drawn) {
  const { [name]: _, ...others } = given;
  const written = text.trim();
  return Object.freeze(written === "" || written === drawn ? others : { ...others, [name]: written });
}

/**
 * @param {Given} one
 * @param {Given} other
 */
export function sameGiven(one, other) {
  return writeGiven(one) === writeGiven(other);
}

/** Name under which the unit to show lengths in goes along with the parameters. */
export const UNITS = "units";

/**
 * The sizes asked for, without the unit they are shown in.
 *
 * @param {Given} given
 * @returns {Given}
 */
export function sizesOf(given) {
  const { [UNITS]: _, ...sizes } = given;
  return Object.freeze(sizes);
}

/**
 * What is asked for beside sizes that are kept by now; of one asked for otherwise since, the new one.
 *
 * @param {Given} given
 * @param {Given} kept
 * @returns {Given}
 */
export function besides(given, kept) {
  return Object.freeze(Object.fromEntries(Object.entries(given).filter(([name, text]) => kept[name] !== text)));
}

/**
 * The unit alone.
 *
 * @param {Given} given
 * @returns {Given}
 */
export function unitsOf(given) {
  const { [UNITS]: units } = given;
  /** @type {Record<string, string>} */
  const kept = units === undefined ? {} : { [UNITS]: units };
  return Object.freeze(kept);
}

/** `730`, `28 3/4`, `28-3/4`, `28¾`: with the unit of an inch behind it a hyphen is none of a subtraction. */
const BARE = /^\s*(?:[\d½¼¾⅛⅜⅝⅞][\d\s./,⁄½¼¾⅛⅜⅝⅞]*|\d+-\d+[/⁄]\d+\s*)$/;

/**
 * What was written, a bare number with the unit of its field: what the page shows is what a number means.
 *
 * @param {string} text
 * @param {string} unit
 * @returns {string}
 */
export function withUnit(text, unit) {
  return unit && BARE.test(text) ? `${text.trim()} ${unit}` : text;
}

/** The word a unit is called by in a sentence. @param {string} units `mm` or `in` */
export function unitWord(units) {
  return units === "in" ? "inches" : "millimeters";
}
