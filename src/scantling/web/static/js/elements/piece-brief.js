/**
 * What the piece is for and what was asked for, to be written otherwise; each change is a version.
 *
 * @fires file-changed detail: the piece as it is kept then
 */

import { LitElement, html, nothing } from "lit";
import { live } from "lit/directives/live.js";
import { askBrief, changeEntry } from "../api/entries.js";
import { Refused } from "../api/plan.js";
import { allTold } from "../lib/faults.js";

/** @typedef {import("../part-types.js").BriefField} BriefField */

/** The one that is a text of its own, and is shown above the sizes. */
const ABOUT = "about";

export class PieceBrief extends LitElement {
  /** @override */
  static properties = { number: { type: Number }, version: { attribute: false }, fields: { state: true }, fault: { state: true }, faulty: { state: true } };

  #parent = 0;

  constructor() {
    super();
    /** number of the piece; 0 where it is not kept */
    this.number = 0;
    this.version = 0;
    /** @type {BriefField[]} */
    this.fields = [];
    this.fault = "";
    /** name of the field that could not be so, with what was typed */
    this.faulty = { name: "", text: "" };
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override @param {Map<string, unknown>} changed */
  updated(changed) {
    if (changed.has("version") && this.number && this.version) void this.#load();
  }

  /** @override */
  render() {
    if (!this.fields.length) return nothing;
    const said = this.fields.filter(({ name, text }) => name !== ABOUT && text).map(({ label }) => label);
    return html`<details class="fold">
      <summary><span class="fold-title">What was asked for</span> <span class="inside">${[this.fields[0]?.label, ...said].join(", ")}</span></summary>
      <div class="asked">${this.fields.map((field) => this.#field(field))}</div>
    </details>`;
  }

  /** @param {BriefField} field */
  #field(field) {
    const id = `brief-${field.name}`;
    const faulty = this.faulty.name === field.name;
    const said = (/** @type {Event} */ event) => void this.#say(field, /** @type {HTMLInputElement} */ (event.target).value);
    const text = faulty ? this.faulty.text : field.text;
    const control = field.choices.length
      ? html`<select id=${id} aria-describedby="${id}-about" @change=${said}>
          ${field.choices.map(({ value, label }) => html`<option value=${value} .selected=${live(value === (text || field.usual))}>${label}</option>`)}
        </select>`
      : field.name === ABOUT
        ? html`<textarea id=${id} rows="4" maxlength="2000" .value=${live(text)} @change=${said}></textarea>`
        : html`<input id=${id} autocomplete="off" spellcheck="false" aria-describedby="${id}-about" aria-invalid=${String(faulty)} .value=${live(text)} @change=${said} />`;
    return html`<div class="row" ?data-faulty=${faulty}>
      <label for=${id}>${field.label}</label>
      ${control} ${field.name === ABOUT ? nothing : html`<p class="about-it" id="${id}-about">${field.about}</p>`}
      ${faulty ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
    </div>`;
  }

  /** @param {BriefField} field @param {string} text */
  async #say({ name, text: before, usual }, text) {
    const asked = text.trim() === usual && !before ? "" : text.trim();
    if (asked === before && this.faulty.name !== name) return;
    try {
      const opened = await changeEntry(this.number, "brief", { name, text: asked, parent: this.#parent });
      this.#parent = opened.piece.version;
      this.#told("", { name: "", text: "" });
      this.dispatchEvent(new CustomEvent("file-changed", { detail: opened, bubbles: true }));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.#told(["Not changed.", ...allTold(error.faults)].join(" "), { name, text });
    }
  }

  /** @param {string} fault @param {{name: string, text: string}} faulty */
  #told(fault, faulty) {
    [this.fault, this.faulty] = [fault, faulty];
  }

  async #load() {
    try {
      const { version, fields } = await askBrief(this.number);
      this.#parent = version;
      this.fields = fields;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.fields = []; // a text that cannot be read has none, and says why elsewhere
    }
  }
}
