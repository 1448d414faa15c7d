/** How the columns of a table are laid. */

/** @typedef {import("../types.js").Table} Table */

/** Characters from which a cell is a sentence and no figure: fewer where many columns share the width. */
const [SENTENCE, SHORT, MANY] = [48, 24, 6];

/**
 * Columns that stand beside each other, and those whose sentences are set under the row. The first
 * column, and the first of words, stay: they say what the row is about.
 *
 * @param {Pick<Table, "columns" | "rows">} table
 * @returns {{beside: number[], under: number[]}}
 */
export function layout({ columns, rows }) {
  /** @type {{beside: number[], under: number[]}} */
  const laid = { beside: [], under: [] };
  const named = columns.findIndex((column) => column.align !== "right");
  const sentence = columns.length >= MANY ? SHORT : SENTENCE;
  columns.forEach((column, c) => {
    const wordy = c > 0 && c !== named && column.align !== "right" && rows.some((row) => (row[c] ?? "").length > sentence);
    (wordy && columns.length > 2 ? laid.under : laid.beside).push(c);
  });
  return laid;
}
