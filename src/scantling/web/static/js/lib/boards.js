/** Where a finger is on a drawing of a board, and what lies under it. */

/** @typedef {import("../board-types.js").BoardView} BoardView */
/** @typedef {import("../board-types.js").PlacedView} PlacedView */
/** @typedef {import("../board-types.js").PaperBox} PaperBox */

/**
 * A point of the screen on a drawing.
 *
 * @param {{left: number, top: number, width: number, height: number}} frame the drawing on the screen
 * @param {readonly [number, number]} paper its size
 * @param {number} x
 * @param {number} y
 * @returns {[number, number]}
 */
export function onPaper(frame, paper, x, y) {
  return [((x - frame.left) / frame.width) * paper[0], ((y - frame.top) / frame.height) * paper[1]];
}

/**
 * The blank under a point, or the nearest that is no farther than a fingertip.
 *
 * @param {readonly PlacedView[]} parts
 * @param {readonly [number, number]} point
 * @param {number} reach
 * @returns {PlacedView | null}
 */
export function partAt(parts, point, reach) {
  let found = null;
  let least = reach;
  for (const part of parts) {
    const off = offBox(part.box, point);
    if (off === 0) return part;
    if (off <= least) [found, least] = [part, off];
  }
  return found;
}

/** How far a point lies off a box. @param {PaperBox} box @param {readonly [number, number]} point */
function offBox([left, top, width, height], [x, y]) {
  const along = Math.max(left - x, 0, x - left - width);
  const down = Math.max(top - y, 0, y - top - height);
  return Math.hypot(along, down);
}

/**
 * A box of a drawing as shares of it, for a style.
 *
 * @param {PaperBox} box
 * @param {readonly [number, number]} paper
 */
export function inShares([left, top, width, height], paper) {
  const share = (/** @type {number} */ value, /** @type {number} */ whole) => `${((100 * value) / whole).toFixed(3)}%`;
  return { left: share(left, paper[0]), top: share(top, paper[1]), width: share(width, paper[0]), height: share(height, paper[1]) };
}

/** The lower left corner of a box. @param {PaperBox} box @returns {[number, number]} */
export function cornerOf([left, top, , height]) {
  return [left, top + height];
}

/** Where a part lies now. @param {readonly BoardView[]} boards @param {string} name */
export function placedAt(boards, name) {
  for (const board of boards) {
    const part = board.parts.find((each) => each.name === name);
    if (part) return { board, part };
  }
  return null;
}

/**
 * The drawing under which the part picked is worked on; empty where it lies on none.
 *
 * @param {Pick<import("../board-types.js").BoardsState, "view" | "picked" | "judged">} state
 * @returns {string}
 */
export function workedOn({ view, picked, judged }) {
  if (!view || !picked) return "";
  if (judged?.drawing) return judged.drawing;
  const named = judged ? view.boards.find((each) => each.root === judged.board) : undefined;
  return named?.name ?? placedAt(view.boards, picked)?.board.name ?? "";
}

/** @param {number} ms */
export function clockWords(ms) {
  const seconds = Math.floor(ms / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}
