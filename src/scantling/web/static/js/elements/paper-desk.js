/** Everything to take away from a piece, of the sizes in the address: the packet to print, the plan for readers, files. */

import { LitElement, html, nothing } from "lit";
import { pieceOf } from "../api/pieces.js";
import { Refused, askPlan, askShape, fileAddress } from "../api/plan.js";
import { factOf } from "../lib/chapters.js";
import { told } from "../lib/faults.js";
import { readGiven, sizesOf } from "../lib/given.js";

/** @typedef {import("../types.js").ShapeView} ShapeView */
/** @typedef {import("../types.js").FaultView} FaultView */

/** @type {ReadonlyArray<readonly [string, string]>} */
const PAPERS = Object.freeze([
  ["a4", "A4"],
  ["letter", "Letter"],
]);
const SUM = /^(?=.*[1-9])\d[\d ,]*(\.\d+)?$/;
/** What each file is for. @type {ReadonlyArray<readonly [string, string, string]>} */
const FILES = Object.freeze([
  ["xlsx", "XLSX", "all tables, for a spreadsheet"],
  ["csv", "CSV of parts", "the cutting list alone"],
  ["hardware-csv", "CSV of hardware", "what is bought and made beside the boards"],
  ["marks-csv", "CSV of marking out", "every place on every part"],
  ["dxf", "DXF", "the worked faces at full size, a layer for each kind of cut"],
  ["step", "STEP", "exact solids for other programs"],
  ["glb", "GLB", "the picture that turns"],
]);

export class PaperDesk extends LitElement {
  /** @override */
  static properties = { shape: { state: true }, faults: { state: true }, paper: { state: true }, said: { state: true }, client: { state: true }, price: { state: true }, reckoned: { state: true } };

  #given = readGiven(location.search);

  constructor() {
    super();
    /** @type {ShapeView | null} */
    this.shape = null;
    /** @type {FaultView[]} */
    this.faults = [];
    this.paper = "";
    this.said = "";
    this.client = "";
    this.price = "";
    /** What the plan comes to; empty until it is there. */
    this.reckoned = "";
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
    if (this.faults.length) return this.#refused();
    if (!this.shape) return html`<p role="status">Looking ...</p>`;
    return html`${this.#tried()} ${this.#packet()} ${this.#offer()} ${this.#readers()} ${this.#files()}`;
  }

  #refused() {
    return html`<div class="notice bad" role="alert">
      <p>There is nothing to print of this yet:</p>
      ${this.faults.map((each) => html`<p>${told(each)}</p>`)}
      <a class="key" href=${`./${location.search}`}>Back to the piece</a>
    </div>`;
  }

  #tried() {
    const tried = Object.entries(sizesOf(this.#given));
    if (!tried.length) return nothing;
    return html`<p class="notice">Of sizes tried and not kept: ${tried.map(([name, text]) => `${name.replaceAll("_", " ")} ${text}`).join(", ")}.</p>`;
  }

  #packet() {
    return html`<section class="group">
      <h2>To work from</h2>
      <p>Cover, drawings, cutting list, boards, saw settings, marking out, templates at full size, glue-ups, the order of work and the cautions.</p>
      <fieldset class="choice">
        <legend>Paper</legend>
        ${PAPERS.map(
          ([name, label]) => html`<label class="key"><input type="radio" name="paper" .checked=${this.paper === name} @change=${() => (this.paper = name)} /> ${label}</label>`,
        )}
      </fieldset>
      <div class="ways">
        <a class="key main" target="_blank" rel="noopener" href=${fileAddress("api/packet.pdf", this.#given, { paper: this.paper })} @click=${() => (this.said = "It opens in a tab of its own; setting it takes a few seconds. Print at 100 %, so that templates come out true.")}>
          Print the packet
        </a>
      </div>
      <p role="status">${this.said}</p>
    </section>`;
  }

  #offer() {
    const wrong = this.price.trim() !== "" && !SUM.test(this.price.trim());
    const terms = { paper: this.paper, ...(this.client.trim() && { client: this.client.trim() }), ...(this.price.trim() && { price: this.price.trim() }) };
    return html`<section class="group">
      <h2>For the client</h2>
      <p>The offer on two sheets: the piece, its wood, surface and price, how it will live in the room, and lines to sign. No hours and no costs are in it.</p>
      <div class="terms">
        <label>Client <input name="client" maxlength="80" autocomplete="off" .value=${this.client} @input=${(/** @type {InputEvent} */ event) => (this.client = valueOf(event))} /></label>
        <label>Price, where it is not the one reckoned<span class="reckoned">${this.reckoned}</span> <input name="price" inputmode="decimal" maxlength="20" autocomplete="off" aria-invalid=${wrong} aria-describedby="price-said" .value=${this.price} @input=${(/** @type {InputEvent} */ event) => (this.price = valueOf(event))} /></label>
      </div>
      <p id="price-said" role="status">${wrong ? "A price is a sum of money above 0, such as 2900." : ""}</p>
      <div class="ways">
        ${wrong ? nothing : html`<a class="key" target="_blank" rel="noopener" href=${fileAddress("api/offer.pdf", this.#given, terms)}>Print the offer</a>`}
      </div>
    </section>`;
  }

  #readers() {
    return html`<section class="group">
      <h2>For readers</h2>
      <p>One file that opens anywhere without a network: the piece to turn, sizes, boards, steps, with keys for millimeters, inches or both. No price, day, room or client of yours is in it.</p>
      <div class="ways">${link(fileAddress("api/published.html", this.#given), "Plan to publish")}</div>
    </section>`;
  }

  #files() {
    const number = pieceOf(location.pathname);
    return html`<section class="group">
      <h2>For other programs</h2>
      <ul class="files">
        ${FILES.map(([kind, name, words]) => html`<li>${link(fileAddress(`api/export/${kind}`, this.#given), name)} <span>${words}</span></li>`)}
        ${number ? html`<li>${link(`/api/pieces/${number}/file`, "Piece file")} <span>the text it is planned from, as it is kept</span></li>` : nothing}
      </ul>
    </section>`;
  }

  async #load() {
    try {
      this.shape = await askShape(this.#given, new AbortController().signal);
      this.paper = this.shape.units === "in" ? "letter" : "a4";
      this.reckoned = factOf(await askPlan(this.#given, new AbortController().signal), "Price");
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.faults = error.faults;
    }
  }
}

/** @param {string} href @param {string} words */
function link(href, words) {
  return html`<a class="key" href=${href} download>${words}</a>`;
}

/** @param {InputEvent} event */
function valueOf(event) {
  return /** @type {HTMLInputElement} */ (event.target).value;
}
