/** The pieces that are kept, last changed first; those put away wait behind a key. */

import { LitElement, html, nothing } from "lit";
import { Refused } from "../api/plan.js";
import { askPicture, askPieces, changePiece } from "../api/pieces.js";
import { ago, stateWords } from "../lib/ago.js";
import { drawing } from "./drawing.js";

/** @typedef {import("../types.js").PieceBody} PieceBody */

export class PieceList extends LitElement {
  /** @override */
  static properties = { pieces: { state: true }, away: { state: true }, fault: { state: true }, naming: { state: true }, some: { state: true } };

  /** @type {Map<string, SVGElement>} */
  #pictures = new Map();
  /** Addresses that had no picture. @type {Set<string>} */
  #without = new Set();
  /** how often the list was asked for */
  #asked = 0;

  constructor() {
    super();
    /** @type {PieceBody[] | null} */
    this.pieces = null;
    this.away = false;
    this.fault = "";
    /** whether there are any on the other list, so that the way there leads to something */
    this.some = false;
    /** number of the piece being called something else */
    this.naming = 0;
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  connectedCallback() {
    super.connectedCallback();
    void this.#load();
  }

  /** @override */
  render() {
    const { pieces, fault } = this;
    return html`
      ${fault ? html`<p class="notice bad" role="alert">${fault}</p>` : nothing}
      ${pieces === null
        ? html`<p role="status">Looking ...</p>`
        : pieces.length
          ? html`<ul class="cards">${pieces.map((piece) => this.#card(piece))}</ul>`
          : html`<p class="none">${this.away ? "Nothing is put away." : "None yet. Begin one below; it is kept here with every version there ever was."}</p>`}
      ${this.away || this.some
        ? html`<button type="button" class="key quiet" aria-pressed=${String(this.away)} @click=${() => this.#turn()}>
            ${this.away ? "Back to my pieces" : "What is put away"}
          </button>`
        : nothing}
    `;
  }

  /** @param {PieceBody} piece */
  #card(piece) {
    const way = `/pieces/${piece.number}/`;
    return html`<li class="card">
      <a class="picture" href=${way} tabindex="-1" aria-hidden="true">${this.#pictures.get(piece.picture) ?? html`<span class="no-picture">${this.#without.has(piece.picture) ? "No picture: something is wrong with it" : ""}</span>`}</a>
      ${this.naming === piece.number
        ? html`<form @submit=${(/** @type {Event} */ event) => this.#rename(event, piece)}>
            <input name="name" aria-label="Name" .value=${piece.name} maxlength="150" required />
            <button class="key main">Call it so</button>
            <button type="button" class="key quiet" @click=${() => this.#name(0)}>Leave it</button>
          </form>`
        : html`<h2><a href=${way}>${piece.name}</a></h2>`}
      <p>${stateWords(piece)} · ${ago(piece.changedAt, Date.now())}${piece.versions > 1 ? ` · ${piece.versions} versions` : ""}</p>
      <div class="ways">
        <a class="key quiet" href=${`${way}bench`} aria-label=${`Bench: ${piece.name}`}>Bench</a>
        <button type="button" class="key quiet" ?disabled=${this.naming === piece.number} @click=${() => this.#name(piece.number)}>Rename</button>
        <button type="button" class="key quiet" @click=${() => this.#change(piece, { putAway: !this.away })}>${this.away ? "Take out" : "Put away"}</button>
      </div>
    </li>`;
  }

  /** Only what was asked last is shown: an answer may come after that to a later question. */
  async #load() {
    const turn = ++this.#asked;
    const away = this.away;
    try {
      const pieces = await askPieces(away);
      const some = away || (await askPieces(true)).length > 0;
      if (turn !== this.#asked) return;
      [this.pieces, this.some, this.fault] = [pieces, some, ""];
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (turn !== this.#asked) return;
      this.fault = error.message;
      this.pieces ??= [];
    }
    for (const piece of this.pieces) void this.#picture(piece);
  }

  /** @param {PieceBody} piece */
  async #picture(piece) {
    if (this.#pictures.has(piece.picture)) return;
    const drawn = drawing(await askPicture(piece.picture), piece.name);
    if (drawn) this.#pictures.set(piece.picture, drawn);
    else this.#without.add(piece.picture);
    this.requestUpdate();
  }

  /** The list turned to is read from its beginning: its key stands below all of the other. */
  async #turn() {
    this.away = !this.away;
    await this.#load();
    await this.updateComplete;
    this.closest("main")?.scrollIntoView({ block: "start" });
    /** @type {HTMLElement | null} */ (this.querySelector("h2 a"))?.focus({ preventScroll: true });
  }

  /** @param {number} number of the piece to be called something else; 0 for none */
  #name(number) {
    this.naming = number;
    void this.updateComplete.then(() => this.querySelector("input")?.select());
  }

  /** @param {Event} event @param {PieceBody} piece */
  #rename(event, piece) {
    event.preventDefault();
    const field = /** @type {HTMLFormElement} */ (event.target).elements.namedItem("name");
    void this.#change(piece, { name: /** @type {HTMLInputElement} */ (field).value.trim() });
  }

  /** @param {PieceBody} piece @param {{name?: string, putAway?: boolean}} change */
  async #change(piece, change) {
    try {
      await changePiece(piece.number, change);
      this.naming = 0;
      await this.#load();
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.fault = error.message;
    }
  }
}
