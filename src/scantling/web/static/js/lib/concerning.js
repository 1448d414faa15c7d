/** Everything the sheets say of one part: their rows that name it. */

/** @typedef {import("../types.js").Sheet} Sheet */

/**
 * @typedef {object} Mention
 * @property {string} sheet id of the sheet
 * @property {string} title of the sheet
 * @property {string} table title of the table
 * @property {number} block place of the table in its sheet
 * @property {number} row place of the row in its table
 * @property {Array<[string, string]>} cells heading and value, the empty ones left out
 */

/**
 * @param {readonly Sheet[]} sheets
 * @param {string} part
 * @returns {Mention[]} in the order of the sheets
 */
export function concerning(sheets, part) {
  /** @type {Mention[]} */
  const found = [];
  for (const sheet of sheets) {
    sheet.blocks.forEach((block, place) => {
      if (block.kind !== "table") return;
      block.rows.forEach((row, number) => {
        if (!block.parts[number]?.includes(part)) return;
        /** @type {Array<[string, string]>} */
        const cells = row.map((cell, i) => [block.columns[i]?.title ?? "", cell]);
        found.push({
          sheet: sheet.id,
          title: sheet.title,
          table: block.title,
          block: place,
          row: number,
          cells: cells.filter(([, cell]) => cell !== ""),
        });
      });
    });
  }
  return found;
}
