/**
 * One board: its drawing, on which parts are dragged and marks drawn, and everything on it as a list for keys.
 *
 * @fires pick-part  detail: name
 * @fires put-part   detail: where it is dragged over
 * @fires drop-part  detail: where it is dropped
 * @fires mark-board detail: board
 * @fires drawn-mark detail: {drawing, one, other}
 * @fires boards-act
 */

import { LitElement, html, nothing } from "lit";
import { inShares } from "../lib/boards.js";
import { Dragging } from "./dragging.js";
import { drawing } from "./drawing.js";

/** @typedef {import("../board-types.js").BoardView} BoardView */
/** @typedef {import("../board-types.js").BoardsState} BoardsState */
/** @typedef {import("../board-types.js").PlacedView} PlacedView */

export class BoardLeaf extends LitElement {
  /** @override */
  static properties = { board: { attribute: false }, state: { attribute: false }, still: { type: Boolean } };

  #svg = "";
  /** @type {SVGElement | null} */
  #drawn = null;

  constructor() {
    super();
    /** @type {BoardView | null} */
    this.board = null;
    /** @type {BoardsState | null} */
    this.state = null;
    /** Only to be looked at. */
    this.still = false;
    this.dragging = new Dragging(this);
  }

  /** @override */
  createRenderRoot() {
    return this; // the styles of the page are ours as well
  }

  /** @override */
  render() {
    const { board, state } = this;
    if (!board) return nothing;
    if (board.svg !== this.#svg) {
      this.#svg = board.svg;
      this.#drawn = drawing(board.svg, board.words);
    }
    const marking = state?.marking === board.name;
    return html`<section class="leaf ${board.state}" aria-label=${`Board ${board.name}`}>
      <h3 class="sr-only">${board.name}, ${board.about}</h3>
      ${this.#states(board)}
      <div class="frame" tabindex="0" role="group" aria-label=${`Drawing of board ${board.name}`}>
        <div class="drawn">
          ${this.#drawn}
          ${this.still ? nothing : html`<div class="over ${marking ? "marking" : ""}" @pointerdown=${this.dragging.down}>${this.#ghost(board)}${marking ? this.#round(board) : nothing}</div>`}
        </div>
      </div>
      ${state?.picked && state.worked === board.name ? html`<picked-part .state=${state}></picked-part>` : nothing}
      ${this.still ? nothing : this.#keys(board, marking)}
      ${marking ? html`<board-mark .board=${board.root} .drawing=${board.name} .units=${state?.view?.units ?? "mm"} .mark=${state?.mark ?? null}></board-mark>` : nothing}
      ${board.parts.length && !this.still ? html`<ul class="parts" aria-label="Parts on it">${board.parts.map((part) => this.#part(part))}</ul>` : nothing}
      ${board.marks.some((mark) => mark.written) && !this.still ? this.#marks(board) : nothing}
    </section>`;
  }

  /** @param {BoardView} board */
  #states(board) {
    const said = [
      board.state === "left" ? "Left out: nothing comes from it." : "",
      board.begun ? "Begun: what is on it stays where it is." : "",
      board.stays ? "Stays as it is laid out." : "",
    ].filter(Boolean);
    return said.length ? html`<p class="said">${said.join(" ")}</p>` : nothing;
  }

  /** The part picked, where it is put. @param {BoardView} board */
  #ghost(board) {
    const judged = this.state?.judged;
    if (!judged?.box || judged.drawing !== board.name) return nothing;
    const { left, top, width, height } = inShares(judged.box, board.paper);
    const ghost = document.createElement("div"); // styled by its properties: the policy knows no style in markup
    ghost.className = judged.fits ? "ghost" : "ghost bad";
    Object.assign(ghost.style, { left, top, width, height });
    return ghost;
  }

  /** The mark that was drawn, while it is not kept yet. @param {BoardView} board */
  #round(board) {
    const box = this.state?.mark?.box;
    if (!box) return nothing;
    const round = document.createElement("div");
    round.className = "drawing-mark";
    Object.assign(round.style, inShares(box, board.paper));
    return round;
  }

  /** @param {BoardView} board @param {boolean} marking */
  #keys(board, marking) {
    const left = board.state === "left";
    return html`<div class="ways">
      <button type="button" class="key" aria-expanded=${String(marking)} @click=${() => this.#tell("mark-board", board.name)}>Mark a knot on ${board.root}</button>
      ${board.begun
        ? nothing
        : html`<button type="button" class="key quiet" @click=${() => this.#act({ act: left ? "use" : "leave", board: board.root })}>${left ? "Use" : "Leave out"} ${board.root}</button>`}
      ${board.state === "cut" && !board.begun
        ? html`<button type="button" class="key quiet" @click=${() => this.#act({ act: board.stays ? "free" : "stay", board: board.root })}>
            ${board.stays ? `Lay ${board.root} out anew` : `Let ${board.root} stay so`}
          </button>`
        : nothing}
    </div>`;
  }

  /** @param {PlacedView} part */
  #part(part) {
    const on = this.state?.picked === part.name;
    const more = part.cut ? "cut" : part.held === "place" ? "held to its place" : part.held === "board" ? "held to this board" : "";
    return html`<li>
      <button type="button" class="key part" aria-pressed=${String(on)} @click=${() => this.#tell("pick-part", part.name)}>
        <span>${part.label}</span> <small>${part.size}${more ? html` <em>${more}</em>` : nothing}</small>
      </button>
    </li>`;
  }

  /** @param {BoardView} board */
  #marks(board) {
    return html`<ul class="found" aria-label="Marks found on it">
      ${board.marks
        .filter((mark) => mark.written)
        .map((mark) => html`<li>${mark.words} <button type="button" class="key quiet" @click=${() => this.#act({ act: "unmark", board: board.root, mark: mark.written })}>Take it off</button></li>`)}
    </ul>`;
  }

  /** @param {Record<string, unknown>} act */
  #act(act) {
    this.#tell("boards-act", act);
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}
