/** Wiring of the page of the boards: what is there goes down to the desk, its events come up. */

import { BoardLeaf } from "./elements/board-leaf.js";
import { BoardMark } from "./elements/board-mark.js";
import { BoardSearch } from "./elements/board-search.js";
import { BoardsDesk } from "./elements/boards-desk.js";
import { PickedPart } from "./elements/picked-part.js";
import { RackNone } from "./elements/rack-none.js";
import { UnitSwitch } from "./elements/unit-switch.js";
import { readGiven } from "./lib/given.js";
import { BoardsWork } from "./state/boards-work.js";
import { inUnitsOfLast, rememberUnits } from "./state/units.js";
import { Unwritten } from "./state/unwritten.js";

customElements.define("board-mark", BoardMark);
customElements.define("board-leaf", BoardLeaf);
customElements.define("board-search", BoardSearch);
customElements.define("picked-part", PickedPart);
customElements.define("rack-none", RackNone);
customElements.define("boards-desk", BoardsDesk);
customElements.define("unit-switch", UnitSwitch);

const found = document.querySelector("boards-desk");
if (!(found instanceof BoardsDesk)) throw new Error("the page has no boards-desk");
const desk = found;
const turn = document.querySelector("unit-switch");
const work = new BoardsWork(new Unwritten(`bench ${location.pathname}`), inUnitsOfLast(readGiven(location.search)), (state) => {
  desk.state = state;
  if (state.view && turn instanceof UnitSwitch) turn.shown = state.view;
});

/** @template Detail @param {string} name @param {(detail: Detail) => void} action */
function on(name, action) {
  document.addEventListener(name, (event) => action(/** @type {CustomEvent} */ (event).detail));
}

on("boards-act", (/** @type {Record<string, unknown>} */ act) => void work.act(act));
on("boards-step", (/** @type {"undo" | "redo" | "write"} */ way) => void work.step(way));
on("take-rack", (/** @type {{name: string, text: string | null}} */ rack) => void work.takeRack(rack));
on("show-units", (/** @type {string} */ units) => {
  rememberUnits(units);
  work.show(units);
});
on("left-over", (/** @type {boolean} */ taken) => void work.leftOver(taken));
on("pick-part", (/** @type {string} */ name) => void work.pick(name));
on("put-down", () => work.putDown());
on("put-part", (/** @type {Record<string, unknown>} */ put) => void work.judge(put, true));
on("drop-part", (/** @type {Record<string, unknown>} */ put) => {
  void work.judge(put).then((judged) => judged?.fits && work.hold(true));
});
on("nudge-part", (/** @type {{steps: [number, number], fine: boolean}} */ { steps, fine }) => void work.nudge(steps, fine));
on("to-board", (/** @type {string} */ board) => void work.toBoard(board || undefined));
on("nearby", () => void work.nearby());
on("hold-part", (/** @type {boolean} */ place) => void work.hold(place));
on("mark-board", (/** @type {string} */ board) => work.mark(board));
on("drawn-mark", (/** @type {{drawing: string, one: [number, number], other: [number, number]}} */ { drawing, one, other }) => {
  void work.drawn(drawing, one, other);
});
on("search-boards", (/** @type {string} */ seconds) => work.search(seconds));
on("stop-search", () => work.stop());
on("keep-search", () => void work.keep());

// what another window marked, or an editor wrote
addEventListener("focus", () => {
  if (!work.state.laying && !work.state.picked && !work.state.marking) void work.open();
});
addEventListener("pagehide", () => {
  if (work.state.search.on) work.stop();
});

void work.open();
