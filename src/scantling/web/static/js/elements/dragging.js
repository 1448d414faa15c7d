/**
 * A finger or the mouse on a drawing: a part taken along to where it is dropped, or a rectangle drawn round a knot.
 * A finger takes along only the part that is picked, so that the page still scrolls under it.
 */

import { cornerOf, onPaper, partAt } from "../lib/boards.js";

/** @typedef {import("./board-leaf.js").BoardLeaf} BoardLeaf */
/** @typedef {import("../board-types.js").PlacedView} PlacedView */

const MOVED_PX = 6;
const FINGER_PX = 14;
const EDGE_PX = 70;
const ASKED_MS = 140;

export class Dragging {
  /** @param {BoardLeaf} leaf */
  constructor(leaf) {
    this.leaf = leaf;
    this.down = this.down.bind(this);
  }

  /** @param {PointerEvent} event */
  down(event) {
    const { leaf } = this;
    const { board, state } = leaf;
    if (!board || event.button !== 0) return;
    const over = /** @type {HTMLElement} */ (event.currentTarget);
    const frame = over.getBoundingClientRect();
    const point = onPaper(frame, board.paper, event.clientX, event.clientY);
    if (state?.marking === board.name) return this.#mark(event, over);
    const onGhost = event.target !== over;
    const reach = (FINGER_PX / frame.width) * board.paper[0];
    const part = onGhost ? null : partAt(board.parts, point, event.pointerType === "mouse" ? 0 : reach);
    const name = onGhost ? (state?.picked ?? "") : (part?.name ?? "");
    const box = onGhost ? state?.judged?.box : part?.box;
    if (!name || !box) return;
    const [x, y] = cornerOf(box);
    const grab = /** @type {[number, number]} */ ([point[0] - x, point[1] - y]);
    const drags = onGhost || (event.pointerType === "mouse" && !part?.cut);
    this.#take(event, { name, grab, size: [(box[2] / board.paper[0]) * frame.width, (box[3] / board.paper[1]) * frame.height], drags, picks: !onGhost });
  }

  /** @param {PointerEvent} first @param {{name: string, grab: [number, number], size: [number, number], drags: boolean, picks: boolean}} taken */
  #take(first, { name, grab, size, drags, picks }) {
    if (drags) first.preventDefault();
    const start = [first.clientX, first.clientY];
    /** @type {HTMLElement | null} */
    let carried = null;
    let asked = -ASKED_MS;
    let due = 0;
    let scrolling = 0;
    let last = first;
    const put = (/** @type {PointerEvent} */ event) => {
      const target = leafUnder(event.clientX, event.clientY);
      if (!target?.board?.takes) return null;
      const frame = /** @type {HTMLElement} */ (target.querySelector(".over")).getBoundingClientRect();
      const [x, y] = onPaper(frame, target.board.paper, event.clientX, event.clientY);
      return { part: name, drawing: target.board.name, corner: [x - grab[0], y - grab[1]] };
    };
    // Not at every move, but always where it came to rest.
    const ask = () => {
      due = 0;
      asked = performance.now();
      const where = put(last);
      if (where) this.#tell("put-part", where);
    };
    const scroll = () => {
      const { clientY } = last;
      if (clientY < EDGE_PX) scrollBy(0, -8);
      else if (clientY > innerHeight - EDGE_PX) scrollBy(0, 8);
      scrolling = requestAnimationFrame(scroll);
    };
    const move = (/** @type {PointerEvent} */ event) => {
      if (event.pointerId !== first.pointerId) return;
      last = event;
      const far = Math.hypot(event.clientX - (start[0] ?? 0), event.clientY - (start[1] ?? 0)) > MOVED_PX;
      if (!drags || (!carried && !far)) return;
      if (!carried) {
        carried = carry(size);
        scroll();
      }
      const [width, height] = size;
      const frame = /** @type {HTMLElement} */ (this.leaf.querySelector(".over"))?.getBoundingClientRect();
      const paper = this.leaf.board?.paper ?? [1, 1];
      const shift = [(grab[0] / paper[0]) * (frame?.width ?? 0), (grab[1] / paper[1]) * (frame?.height ?? 0)];
      carried.style.transform = `translate(${event.clientX - (shift[0] ?? 0)}px, ${event.clientY - (shift[1] ?? 0) - height}px)`;
      carried.style.width = `${width}px`;
      if (!due) due = setTimeout(ask, Math.max(asked + ASKED_MS - performance.now(), 0));
    };
    const end = (/** @type {PointerEvent} */ event) => {
      if (event.pointerId !== first.pointerId) return;
      cancelAnimationFrame(scrolling);
      clearTimeout(due);
      for (const [kind, listener] of listeners) removeEventListener(kind, /** @type {EventListener} */ (listener));
      const dropped = carried;
      carried?.remove();
      const where = dropped && event.type === "pointerup" ? put(event) : null;
      if (where) this.#tell("drop-part", where);
      else if (dropped) this.#tell("put-down", null);
      else if (picks && event.type === "pointerup") this.#tell("pick-part", name);
    };
    const listeners = /** @type {const} */ ([["pointermove", move], ["pointerup", end], ["pointercancel", end]]);
    for (const [kind, listener] of listeners) addEventListener(kind, /** @type {EventListener} */ (listener));
  }

  /** @param {PointerEvent} first @param {HTMLElement} over */
  #mark(first, over) {
    first.preventDefault();
    const { board } = this.leaf;
    if (!board) return;
    const frame = over.getBoundingClientRect();
    const rect = document.createElement("div");
    rect.className = "drawing-mark";
    over.append(rect);
    const move = (/** @type {PointerEvent} */ event) => {
      if (event.pointerId !== first.pointerId) return;
      rect.style.left = `${Math.min(first.clientX, event.clientX) - frame.left}px`;
      rect.style.top = `${Math.min(first.clientY, event.clientY) - frame.top}px`;
      rect.style.width = `${Math.abs(event.clientX - first.clientX)}px`;
      rect.style.height = `${Math.abs(event.clientY - first.clientY)}px`;
    };
    const end = (/** @type {PointerEvent} */ event) => {
      if (event.pointerId !== first.pointerId) return;
      for (const [kind, listener] of listeners) removeEventListener(kind, /** @type {EventListener} */ (listener));
      rect.remove();
      if (event.type === "pointercancel") return;
      const one = onPaper(frame, board.paper, first.clientX, first.clientY);
      const other = onPaper(frame, board.paper, event.clientX, event.clientY);
      this.#tell("drawn-mark", { drawing: board.name, one, other });
    };
    const listeners = /** @type {const} */ ([["pointermove", move], ["pointerup", end], ["pointercancel", end]]);
    for (const [kind, listener] of listeners) addEventListener(kind, /** @type {EventListener} */ (listener));
    move(first);
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.leaf.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}

/** @param {readonly [number, number]} size */
function carry([width, height]) {
  const carried = document.createElement("div");
  carried.className = "carried";
  carried.style.width = `${width}px`;
  carried.style.height = `${height}px`;
  document.body.append(carried);
  return carried;
}

/** @param {number} x @param {number} y @returns {BoardLeaf | null} */
function leafUnder(x, y) {
  const over = document.elementsFromPoint(x, y).find((each) => each.matches(".over"));
  return /** @type {BoardLeaf | null} */ (over?.closest("board-leaf") ?? null);
}
