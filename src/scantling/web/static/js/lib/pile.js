/** Boards as they are typed at the yard: what a key does to a size, and the pile they make. */

/** @typedef {import("../types.js").TypedBoard} TypedBoard */

/** Keys of a size in inches and in millimeters, row by row; a space is an empty place. */
export const KEYS = Object.freeze({
  in: [
    ["7", "8", "9", "ft"],
    ["4", "5", "6", "in"],
    ["1", "2", "3", "1/2"],
    ["0", "1/4", "3/4", "back"],
    ["1/8", "3/8", "5/8", "7/8"],
  ],
  mm: [
    ["7", "8", "9", "m"],
    ["4", "5", "6", "cm"],
    ["1", "2", "3", "mm"],
    ["0", ".", "clear", "back"],
  ],
  money: [
    ["7", "8", "9"],
    ["4", "5", "6"],
    ["1", "2", "3"],
    ["0", ".", "back"],
  ],
});

/**
 * What stands in a field after a key.
 *
 * @param {string} text
 * @param {string} key
 * @returns {string}
 */
export function typed(text, key) {
  if (key === "clear") return "";
  if (key === "back") return text.trimEnd().replace(/(\d+\/\d+|[a-z]+|.)$/, "").trimEnd();
  const [last] = text.slice(-1);
  if (/^\d$|^\.$/.test(key)) {
    if (/\d\/\d+$/.test(text)) return text; // nothing follows a fraction but its unit
    return last && /[a-z]/.test(last) ? `${text} ${key}` : `${text}${key}`;
  }
  if (key.includes("/")) {
    if (/\/\d+$/.test(text)) return text.replace(/\d+\/\d+$/, key);
    return text ? `${text} ${key}` : key;
  }
  if (!text || (last && /[a-z]/.test(last))) return text.replace(/[a-z]+$/, key);
  return `${text} ${key}`;
}

/**
 * The next free number to chalk on a board.
 *
 * @param {readonly TypedBoard[]} pile
 * @returns {string}
 */
export function nextName(pile) {
  const taken = new Set(pile.map((board) => board.name));
  let number = pile.length + 1;
  while (taken.has(String(number))) number += 1;
  return String(number);
}

/**
 * The pile after an answer has been followed.
 *
 * @param {readonly TypedBoard[]} pile
 * @param {TypedBoard} lifted
 * @param {{verdict: string, giveBack: string[]}} answer
 * @returns {readonly TypedBoard[]}
 */
export function followed(pile, lifted, { verdict, giveBack }) {
  if (verdict === "put back") return pile;
  return Object.freeze([...pile.filter((board) => !giveBack.includes(board.name)), lifted]);
}

/**
 * A board in one line, as it was typed; a unit that both sizes have is said once.
 *
 * @param {TypedBoard} board
 */
export function inWords(board) {
  const marks = board.defects ? `; ${markInWords(board.defects)}` : "";
  const price = board.price ? `, ${board.price}` : "";
  const [, long = board.length, unit = ""] = /^([\d\s./]*\d) ?([a-z]+)$/.exec(board.length) ?? [];
  const length = unit && board.width.endsWith(` ${unit}`) ? long : board.length;
  const size = `${length} × ${board.width}`.replaceAll(" ", "\u00a0"); // never parted at the end of a line
  const rings = board.rings ? `, ${board.rings}-sawn` : "";
  return `${board.thickness} ${board.species}, ${size}${rings}${price}${marks}`;
}

/** Marks as they are shown, of what a rack file has of them. @param {string} defects */
export function markInWords(defects) {
  return defects.replaceAll(" x ", " × ");
}

/** A bare number gets the unit on show, so that it means the same tomorrow. @param {string} text @param {string} unit */
export function sized(text, unit) {
  return /^[\d\s./]+$/.test(text) ? `${text.trim()} ${unit}` : text.trim();
}
