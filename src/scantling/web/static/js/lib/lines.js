/** Lines of a text: those something is wrong with, and those one text has otherwise than another. */

/**
 * @typedef {object} Hunk lines that are otherwise
 * @property {number} at the first of them in the text before, from 0
 * @property {number} gone how many lines there were
 * @property {string[]} come what stands in their place
 */

/** Above this product of lengths, what differs is told as one run of lines. */
const MOST = 4_000_000;

/**
 * @param {string} text
 * @param {ReadonlyArray<{line?: number}>} faults
 * @returns {Array<{number: number, bad: boolean}>}
 */
export function placed(text, faults) {
  const bad = new Set(faults.map((each) => each.line));
  return text.split("\n").map((_, index) => ({ number: index + 1, bad: bad.has(index + 1) }));
}

/**
 * What makes one text of another, in order; as few lines as can be.
 *
 * @param {string} before
 * @param {string} after
 * @returns {Hunk[]}
 */
export function hunks(before, after) {
  if (before === after) return [];
  const [one, other] = [before.split("\n"), after.split("\n")];
  let start = 0;
  while (start < one.length && start < other.length && one[start] === other[start]) start += 1;
  let [end, otherEnd] = [one.length, other.length];
  while (end > start && otherEnd > start && one[end - 1] === other[otherEnd - 1]) [end, otherEnd] = [end - 1, otherEnd - 1];
  const [gone, come] = [one.slice(start, end), other.slice(start, otherEnd)];
  if (gone.length * come.length > MOST) return [{ at: start, gone: gone.length, come }];
  return between(gone, come).map((hunk) => ({ ...hunk, at: hunk.at + start }));
}

/**
 * Lines of the text after that were not in the one before, from 1; where lines only went, the one now in their place.
 *
 * @param {string} before
 * @param {string} after
 * @returns {number[]}
 */
export function freshLines(before, after) {
  const last = after.split("\n").length;
  let moved = 0;
  return hunks(before, after).flatMap(({ at, gone, come }) => {
    const first = at + moved + 1;
    moved += come.length - gone;
    return come.length ? come.map((_, i) => first + i) : [Math.min(first, last)];
  });
}

/** The place in a text where a line begins. @param {string} text @param {number} line from 1 */
export function startOf(text, line) {
  return text.split("\n").slice(0, line - 1).reduce((sum, each) => sum + each.length + 1, 0);
}

/** @param {string[]} one @param {string[]} other @returns {Hunk[]} */
function between(one, other) {
  // how many lines the rests have in common
  const common = Array.from({ length: one.length + 1 }, () => new Uint32Array(other.length + 1));
  const of = (/** @type {number} */ i, /** @type {number} */ j) => common[i]?.[j] ?? 0;
  for (let i = one.length - 1; i >= 0; i -= 1) {
    for (let j = other.length - 1; j >= 0; j -= 1) {
      const row = /** @type {Uint32Array} */ (common[i]);
      row[j] = one[i] === other[j] ? of(i + 1, j + 1) + 1 : Math.max(of(i + 1, j), of(i, j + 1));
    }
  }
  /** @type {Hunk[]} */
  const found = [];
  let [i, j] = [0, 0];
  while (i < one.length || j < other.length) {
    const hunk = { at: i, gone: 0, come: /** @type {string[]} */ ([]) };
    while ((i < one.length || j < other.length) && (i === one.length || j === other.length || one[i] !== other[j])) {
      if (j === other.length || (i < one.length && of(i + 1, j) >= of(i, j + 1))) [i, hunk.gone] = [i + 1, hunk.gone + 1];
      else {
        hunk.come.push(other[j] ?? "");
        j += 1;
      }
    }
    if (hunk.gone || hunk.come.length) found.push(hunk);
    else [i, j] = [i + 1, j + 1];
  }
  return found;
}
