/**
 * Ways to begin a piece: a form with its picture, a file, the demo.
 *
 * @fires piece-begun detail: its number
 */

import { LitElement, html, nothing } from "lit";
import { Refused } from "../api/plan.js";
import { askDemo, askForms, askPicture, beginPiece } from "../api/pieces.js";
import { drawing } from "./drawing.js";
import { PlannedFor } from "./planned-for.js";

/** @typedef {import("../types.js").FormBody} FormBody */
/** @typedef {import("../types.js").Content} Content */

export class PieceNew extends LitElement {
  /** @override */
  static properties = { forms: { state: true }, fault: { state: true }, busy: { state: true } };

  /** @type {Map<string, SVGElement>} */
  #pictures = new Map();

  constructor() {
    super();
    /** @type {FormBody[]} */
    this.forms = [];
    this.fault = "";
    this.busy = false;
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
    return html`
      <h2 class="begin">Begin a piece</h2>
      ${this.fault ? html`<p class="notice bad" role="alert">${this.fault}</p>` : nothing}
      <div class="ways first">
        <label class="key">From a file <input type="file" accept=".yaml,.yml" @change=${(/** @type {Event} */ event) => this.#file(event)} /></label>
        <button type="button" class="key" ?disabled=${this.busy} @click=${() => this.#demo()}>Try the demo, with its shop, rack and room</button>
      </div>
      <planned-for></planned-for>
      <ul class="cards">
        ${this.forms.map(
          (form) => html`<li class="card">
            <div class="picture">${this.#pictures.get(form.name) ?? nothing}</div>
            <h3>${form.title}</h3>
            <p>${form.about}</p>
            <div class="ways">
              <button type="button" class="key" ?disabled=${this.busy} aria-label=${`Begin this one: ${form.title}`} @click=${() => this.#begin({ form: form.name })}>Begin this one</button>
            </div>
          </li>`,
        )}
      </ul>
    `;
  }

  async #load() {
    await this.#trying(async () => {
      this.forms = await askForms();
    });
    for (const form of this.forms) {
      const drawn = drawing(await askPicture(`/api/forms/${form.name}/picture.svg`), form.title);
      if (drawn) this.#pictures.set(form.name, drawn);
      this.requestUpdate();
    }
  }

  /** What the list above says; what comes with a shop and room of its own keeps them. */
  #plannedFor() {
    const list = this.querySelector("planned-for");
    return list instanceof PlannedFor ? list.choices : [];
  }

  /** @param {{form?: string, content?: Content}} fresh */
  async #begin(fresh) {
    await this.#trying(async () => {
      const begun = await beginPiece(fresh.content?.shop || fresh.content?.room ? fresh : { ...fresh, plannedFor: this.#plannedFor() });
      this.dispatchEvent(new CustomEvent("piece-begun", { detail: begun.piece.number, bubbles: true }));
    });
  }

  async #demo() {
    await this.#trying(async () => this.#begin({ content: await askDemo() }));
  }

  /** @param {Event} event */
  async #file(event) {
    const field = /** @type {HTMLInputElement} */ (event.target);
    const [file] = field.files ?? [];
    if (!file) return;
    const piece = await file.text();
    field.value = "";
    await this.#begin({ content: { piece, given: {}, shop: null, rack: null, room: null, bench: null } });
  }

  /** @param {() => Promise<unknown>} work */
  async #trying(work) {
    this.busy = true;
    try {
      await work();
      this.fault = "";
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.fault = error.message;
    } finally {
      this.busy = false;
    }
  }
}
