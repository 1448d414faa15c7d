/**
 * What can be done with the boards chosen: used, sold, thrown away, their moisture read, labels.
 *
 * @fires stock-act detail: {act, body, done} `done` is called once it is kept
 */

import { LitElement, html, nothing } from "lit";
import { labelsAddress } from "../api/stock.js";
import { askPieces } from "../api/pieces.js";
import { boardsWord } from "../lib/stock.js";

/** @typedef {import("../types.js").BoardBody} BoardBody */
/** @typedef {import("../types.js").PieceBody} PieceBody */

const ACTS = Object.freeze(/** @type {const} */ ([
  ["used", "Use"],
  ["sold", "Sell"],
  ["thrown", "Throw away"],
  ["read", "Moisture"],
]));

export class StockActs extends LitElement {
  /** @override */
  static properties = { boards: { attribute: false }, units: { attribute: false }, act: { state: true }, pieces: { state: true } };

  constructor() {
    super();
    /** @type {BoardBody[]} */
    this.boards = [];
    this.units = "mm";
    /** @type {string} what is being filled in */
    this.act = "";
    /** @type {PieceBody[]} */
    this.pieces = [];
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const { boards, units } = this;
    if (!boards.length) return nothing;
    const numbers = boards.map((board) => board.number);
    return html`<section class="chosen" aria-label="Boards chosen">
      <p><b>${boards.length > 3 ? boardsWord(boards.length) : boards.map((board) => board.name).join(", ")}</b></p>
      <div class="ways">
        ${ACTS.map(
          ([act, word]) => html`<button type="button" class="key" aria-pressed=${String(this.act === act)} @click=${() => this.#open(act)}>${word}</button>`,
        )}
        <a class="key quiet" href=${labelsAddress(numbers, units, units === "in" ? "letter" : "a4")}>Labels</a>
      </div>
      ${this.act ? this.#form() : nothing}
    </section>`;
  }

  #form() {
    const one = this.boards.length === 1;
    return html`<form @submit=${(/** @type {SubmitEvent} */ event) => this.#send(event)} autocomplete="off">
      ${this.act === "used"
        ? html`<label>For <input name="party" list="stock-pieces" maxlength="200" placeholder="a piece" /></label>
            <datalist id="stock-pieces">${this.pieces.map((piece) => html`<option value=${piece.name}></option>`)}</datalist>
            ${one
              ? html`<label>Offcut kept <input name="length" maxlength="40" placeholder="length, ${this.units === "in" ? "in" : "mm"}" /></label>
                  <label>by <input name="width" maxlength="40" placeholder="width, ${this.units === "in" ? "in" : "mm"}" /></label>`
              : nothing}`
        : nothing}
      ${this.act === "sold"
        ? html`<label>To <input name="party" maxlength="200" /></label>
            <label>Price of each <input name="figure" type="number" min="0" step="any" inputmode="decimal" /></label>`
        : nothing}
      ${this.act === "read" ? html`<label>Moisture, % <input name="figure" type="number" min="0" max="200" step="any" inputmode="decimal" required /></label>` : nothing}
      ${this.act === "thrown" ? html`<label>Why <input name="note" maxlength="200" /></label>` : nothing}
      <button class="key main">Done</button>
    </form>`;
  }

  /** @param {string} act */
  #open(act) {
    this.act = this.act === act ? "" : act;
    if (this.act === "used") void askPieces(false).then((pieces) => (this.pieces = pieces));
  }

  /** @param {SubmitEvent} event */
  #send(event) {
    event.preventDefault();
    const told = Object.fromEntries(new FormData(/** @type {HTMLFormElement} */ (event.target)));
    const [first] = this.boards;
    const party = String(told["party"] ?? "").trim();
    const keep =
      first && told["length"] && told["width"] ? [{ board: first.number, length: String(told["length"]), width: String(told["width"]) }] : [];
    const body = {
      kind: this.act,
      boards: this.boards.map((board) => board.number),
      party,
      piece: this.act === "used" ? (this.pieces.find((piece) => piece.name === party)?.number ?? null) : null,
      figure: told["figure"] ? Number(told["figure"]) : null,
      note: String(told["note"] ?? ""),
      keep,
    };
    const done = () => {
      if (this.act === body.kind) this.act = ""; // another one may be filled in by now
    };
    const detail = { act: "go", body, done };
    this.dispatchEvent(new CustomEvent("stock-act", { detail, bubbles: true }));
  }
}
