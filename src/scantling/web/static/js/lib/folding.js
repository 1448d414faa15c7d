/** What of a chapter stands open, and what is told in one line until it is opened. Nothing that stops the job is folded. */

/** @typedef {import("../types.js").Block} Block */
/** @typedef {import("../types.js").Sheet} Sheet */
/** @typedef {import("../types.js").Table} Table */

/** Lines of a table that stand open at most, and characters of words. */
const [FEW_LINES, FEW_LETTERS] = [9, 170];
/** Characters that fill about one line. */
const LINE = 90;
/** Facts that stand open at most; blocks of one kind that are told in a line each at most. */
const [MANY_FACTS, MANY_ALIKE] = [6, 4];

/**
 * Whether a block of a sheet is folded.
 *
 * @param {Pick<Sheet, "blocks">} sheet
 * @param {number} place
 */
export function isFolded({ blocks }, place) {
  const block = blocks[place];
  if (!block) return false;
  const alike = blocks.filter((each) => each.kind === block.kind);
  switch (block.kind) {
    case "caution":
      return false;
    case "facts":
      return block.items.length > MANY_FACTS;
    case "picture":
      return alike.length > 1;
    case "words":
      return alike.length > MANY_ALIKE || letters(block.lines) > FEW_LETTERS;
    case "table":
      if (block.tones.includes("bad")) return false;
      return alike[0] !== block || alike.length > MANY_ALIKE || summedUp(blocks) || linesOf(block) > FEW_LINES;
  }
}

/** Whether facts stand open, or the one drawing, which tell what matters at a glance. @param {readonly Block[]} blocks */
function summedUp(blocks) {
  const pictures = blocks.filter((each) => each.kind === "picture").length;
  return pictures === 1 || blocks.some((each) => each.kind === "facts" && each.items.length <= MANY_FACTS);
}

/**
 * Places of the blocks, those that are told in one line together in one list: folded words one after the other.
 *
 * @param {Pick<Sheet, "blocks">} sheet
 * @returns {number[][]}
 */
export function together(sheet) {
  /** @type {number[][]} */
  const lists = [];
  sheet.blocks.forEach((block, place) => {
    const last = lists.at(-1);
    const alike = block.kind === "words" && sheet.blocks[place - 1]?.kind === "words";
    if (last && alike && isFolded(sheet, place) && isFolded(sheet, place - 1)) last.push(place);
    else lists.push([place]);
  });
  return lists;
}

/**
 * Titles told in one line: the first, and the others without the words they have in common with it.
 *
 * @param {readonly string[]} titles
 * @returns {{first: string, others: string[]}}
 */
export function gathered(titles) {
  const words = titles.map((title) => title.split(" "));
  const first = words[0] ?? [];
  const length = first.findIndex((word, i) => words.some((each) => each[i] !== word));
  const shared = Math.max(0, length);
  return { first: titles[0] ?? "", others: words.slice(1).map((each) => each.slice(shared).join(" ")) };
}

/**
 * What is inside a folded block, in a few words.
 *
 * @param {Block} block
 * @returns {string}
 */
export function inside(block) {
  switch (block.kind) {
    case "table": {
      const watch = block.tones.filter((tone) => tone === "warn" || tone === "bad").length;
      const heads = block.columns.map((column) => column.title).filter(Boolean);
      return `${counted(block.rows.length, "line")}${watch ? `, ${watch} to watch` : ""}: ${heads.join(", ")}`;
    }
    case "words":
      return block.lines.length > 1 ? counted(block.lines.length, block.numbered ? "step" : "point") : (block.lines[0] ?? "");
    case "facts":
      return block.items.map(([label]) => label).join(", ");
    case "picture":
      return block.words || "drawing";
    case "caution":
      return "";
  }
}

/** Lines a table takes, those of its sentences counted. @param {Table} table */
function linesOf({ rows }) {
  return rows.reduce((sum, row) => sum + Math.max(1, Math.round(letters(row) / LINE)), 0);
}

/** @param {readonly string[]} texts */
function letters(texts) {
  return texts.reduce((sum, text) => sum + text.length, 0);
}

/** @param {number} count @param {string} thing */
function counted(count, thing) {
  return `${count} ${thing}${count === 1 ? "" : "s"}`;
}
