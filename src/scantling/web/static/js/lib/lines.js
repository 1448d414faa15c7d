/** Lines of a text, with those something is wrong with. */

/**
 * @param {string} text
 * @param {ReadonlyArray<{line?: number}>} faults
 * @returns {Array<{number: number, bad: boolean}>}
 */
export function placed(text, faults) {
  const bad = new Set(faults.map((each) => each.line));
  return text.split("\n").map((_, index) => ({ number: index + 1, bad: bad.has(index + 1) }));
}
