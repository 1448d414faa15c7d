/**
 * A piece sawn from the stockroom: what goes out and comes in, told first, then done.
 *
 * @fires stock-changed once boards have gone out
 */

import { LitElement, html, nothing } from "lit";
import { Refused } from "../api/plan.js";
import { askPieces, openPiece, savePiece } from "../api/pieces.js";
import { cutPiece } from "../api/stock.js";

/** @typedef {import("../types.js").PieceBody} PieceBody */
/** @typedef {import("../types.js").CutBody} CutBody */

export class StockCut extends LitElement {
  /** @override */
  static properties = {
    units: { attribute: false },
    pieces: { state: true },
    number: { state: true },
    cut: { state: true },
    fault: { state: true },
    apart: { state: true },
    busy: { state: true },
  };

  constructor() {
    super();
    this.units = "mm";
    /** @type {PieceBody[]} */
    this.pieces = [];
    this.number = 0;
    /** @type {CutBody | null} */
    this.cut = null;
    this.fault = "";
    /** whether the piece is planned without the stockroom */
    this.apart = false;
    this.busy = false;
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  connectedCallback() {
    super.connectedCallback();
    void this.#trying(async () => (this.pieces = await askPieces(false)));
  }

  /** @override */
  render() {
    if (!this.pieces.length) return nothing;
    return html`
      <h2 class="begin">Cut a piece from it</h2>
      <form class="board-in" @submit=${(/** @type {SubmitEvent} */ event) => this.#look(event)}>
        <label>
          Piece
          <select name="piece" required>
            ${this.pieces.map((piece) => html`<option value=${piece.number} ?selected=${piece.number === this.number}>${piece.name}</option>`)}
          </select>
        </label>
        <button class="key main" ?disabled=${this.busy}>${this.busy ? "Laying it out ..." : "Show what it takes"}</button>
      </form>
      ${this.fault ? html`<p class="notice bad" role="alert">${this.fault}</p>` : nothing}
      ${this.apart ? html`<button type="button" class="key" ?disabled=${this.busy} @click=${() => void this.#layOut()}>Lay it out on the stockroom</button>` : nothing}
      ${this.cut ? this.#told(this.cut) : nothing}
    `;
  }

  /** @param {CutBody} cut */
  #told({ out, kept, missing, before, done }) {
    return html`<section class="cut" aria-live="polite">
      <p><b>${done ? "Out of the stockroom:" : "Goes out:"}</b> ${out.map((board) => `${board.name} (${board.size})`).join(", ")}</p>
      <p><b>${done ? "Put back in:" : "Comes back in:"}</b> ${kept.map((offcut) => `${offcut.name} (${offcut.size})`).join(", ") || "nothing worth keeping"}</p>
      ${missing ? html`<p>${missing === 1 ? "One blank has" : `${missing} blanks have`} no wood here yet.</p>` : nothing}
      ${before.length && !done ? html`<p class="fault">Boards went out for it before: ${before.map((board) => board.name).join(", ")}. Is this another one?</p>` : nothing}
      ${done
        ? nothing
        : html`<p>Once it is sawn:</p>
            <button type="button" class="key" ?disabled=${this.busy} @click=${() => void this.#really()}>It is sawn, take it out</button>`}
    </section>`;
  }

  /** @param {SubmitEvent} event */
  #look(event) {
    event.preventDefault();
    this.number = Number(new FormData(/** @type {HTMLFormElement} */ (event.target)).get("piece"));
    void this.#ask(false);
  }

  /** @param {boolean} really */
  async #ask(really) {
    this.cut = null;
    this.apart = false;
    await this.#trying(async () => {
      this.cut = await cutPiece(this.number, really, this.units);
    });
  }

  async #really() {
    await this.#ask(true);
    if (this.cut) this.dispatchEvent(new CustomEvent("stock-changed", { bubbles: true }));
  }

  /** The next version of the piece has the stockroom for its rack. */
  async #layOut() {
    const kept = await this.#trying(async () => {
      const { piece, content } = await openPiece(this.number);
      await savePiece(this.number, { ...content, rack: { name: "stockroom", text: null } }, piece.version, "Laid out on the stockroom");
    });
    if (kept) await this.#ask(false);
  }

  /** @param {() => Promise<unknown>} work @returns {Promise<boolean>} whether it was done */
  async #trying(work) {
    this.busy = true;
    try {
      await work();
      this.fault = "";
      return true;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.apart = error.faults.some((fault) => fault.code === "nothing_cut");
      this.fault = this.apart ? "Its plan takes nothing from here: another rack goes with it, or none." : error.message;
      return false;
    } finally {
      this.busy = false;
    }
  }
}
