/** What a change of a size changed elsewhere. */

/** @typedef {import("../types.js").Table} Table */
/** @typedef {import("../types.js").Sheet} Sheet */
/** @typedef {import("../types.js").Block} Block */

/**
 * Cells of a table that differ from those of the table it replaces; none where the two cannot be laid over each other.
 *
 * @param {Table} after
 * @param {Block | undefined} before
 * @returns {Set<string>} `row,column`
 */
export function changedCells(after, before) {
  /** @type {Set<string>} */
  const changed = new Set();
  if (before?.kind !== "table" || before.title !== after.title || before.rows.length !== after.rows.length) {
    return changed;
  }
  after.rows.forEach((row, r) => {
    row.forEach((cell, c) => {
      if (before.rows[r]?.[c] !== cell) changed.add(`${r},${c}`);
    });
  });
  return changed;
}

/**
 * @param {Sheet | undefined} one
 * @param {Sheet | undefined} other
 */
export function sameSheet(one, other) {
  return JSON.stringify(one) === JSON.stringify(other);
}
