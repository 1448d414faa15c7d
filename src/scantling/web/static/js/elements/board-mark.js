/**
 * A mark found on a board: drawn with a finger, or typed; corrected before it is kept.
 *
 * @fires boards-act
 * @fires mark-board detail: the board, to leave it
 */

import { LitElement, html } from "lit";
import { unitWord } from "../lib/given.js";

/** @typedef {import("../board-types.js").TypedMark} TypedMark */

const KINDS = Object.freeze(["knot", "check", "split", "sapwood", "stain", "wane", "pith", "hole", "run-out", "other"]);
const SIZES = Object.freeze(/** @type {const} */ ([
  ["x", "From the left end"],
  ["y", "From the lower edge"],
  ["length", "Length along the grain"],
  ["width", "Width across"],
]));

export class BoardMark extends LitElement {
  /** @override */
  static properties = { board: {}, drawing: {}, units: {}, mark: { attribute: false } };

  constructor() {
    super();
    this.board = "";
    this.drawing = "";
    this.units = "mm";
    /** @type {TypedMark | null} */
    this.mark = null;
  }

  /** @override */
  createRenderRoot() {
    return this; // the styles of the page are ours as well
  }

  /** @override */
  render() {
    const { mark, board, units } = this;
    return html`<form class="marking" @submit=${this.#made} autocomplete="off">
      <fieldset>
        <legend>A mark on ${board}</legend>
        <p>Draw it on the board with a finger or the mouse, or type it, in ${unitWord(units)}.</p>
        <label>Kind <select name="kind">${KINDS.map((kind) => html`<option>${kind}</option>`)}</select></label>
        <label>On
          <select name="face">
            <option value="through">both faces</option>
            <option value="face">the face</option>
            <option value="back">the back</option>
          </select>
        </label>
        ${SIZES.map(([name, label]) => html`<label>${label} <input name=${name} inputmode="text" required .value=${mark?.[name] ?? ""} /></label>`)}
        <div class="ways">
          <button class="key main">Mark it</button>
          <button type="button" class="key quiet" @click=${() => this.#tell("mark-board", this.drawing)}>No mark</button>
        </div>
      </fieldset>
    </form>`;
  }

  /** @param {Event} event */
  #made(event) {
    event.preventDefault();
    const told = Object.fromEntries(new FormData(/** @type {HTMLFormElement} */ (event.target)));
    this.#tell("boards-act", { act: "mark", board: this.board, ...told });
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}
