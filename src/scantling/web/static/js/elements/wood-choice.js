/**
 * Which woods the piece is of, each to be changed for another in all its parts at once.
 *
 * @fires file-changed detail: the piece as it is kept then
 */

import { LitElement, html, nothing } from "lit";
import { askWoods, changeEntry } from "../api/entries.js";
import { numberOf } from "../api/pieces.js";
import { Refused } from "../api/plan.js";

/** @typedef {import("../types.js").WoodBody} WoodBody */

/** Parts named beside a wood; of more only the count is told. */
const NAMED = 4;

export class WoodChoice extends LitElement {
  /** @override */
  static properties = { version: { attribute: false }, woods: { state: true }, fault: { state: true }, busy: { state: true } };

  #number = numberOf(location.pathname);
  /** @type {string[]} */
  #known = [];

  constructor() {
    super();
    this.version = 0;
    /** @type {WoodBody[]} */
    this.woods = [];
    /** what is wrong, and with which wood */
    this.fault = { wood: "", words: "" };
    this.busy = false;
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override @param {Map<string, unknown>} changed */
  updated(changed) {
    if (changed.has("version") && this.version && this.#number) void this.#load();
  }

  /** @override */
  render() {
    if (!this.woods.length) return nothing;
    return html`${this.woods.map((wood, index) => this.#row(wood, index))}
      <datalist id="woods-known">${this.#known.map((name) => html`<option value=${name}></option>`)}</datalist>`;
  }

  /** @param {WoodBody} wood @param {number} index */
  #row({ name, parts }, index) {
    const fault = this.fault.wood === name ? this.fault.words : "";
    const id = `wood-${index}`;
    return html`<form class="wood" ?data-faulty=${fault !== ""} @submit=${(/** @type {Event} */ event) => this.#change(event, name)}>
      <div class="words">
        <label for=${id}>Wood${this.woods.length > 1 ? html` <small>${index + 1} of ${this.woods.length}</small>` : nothing}</label>
        <p class="about-it">${parts.length > NAMED ? `${parts.length} parts, ${parts[0]?.toLowerCase()} among them` : parts.join(", ")}.</p>
      </div>
      <div class="dial">
        <input id=${id} name="wood" type="text" list="woods-known" .value=${name} autocomplete="off" spellcheck="false" required aria-describedby="${id}-fault" aria-invalid=${String(fault !== "")} />
        <button class="key" ?disabled=${this.busy}>${this.busy ? "Planning ..." : "Take this wood"}</button>
        <p class="fault" role="alert" id="${id}-fault">${fault}</p>
      </div>
    </form>`;
  }

  async #load() {
    try {
      const { woods, known } = await askWoods(this.#number);
      this.#known = known;
      this.woods = woods;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.woods = [];
    }
  }

  /** @param {Event} event @param {string} wood */
  async #change(event, wood) {
    event.preventDefault();
    const field = /** @type {HTMLFormElement} */ (event.target).elements.namedItem("wood");
    const other = /** @type {HTMLInputElement} */ (field).value.trim();
    if (other === wood) return;
    this.busy = true;
    try {
      const opened = await changeEntry(this.#number, "woods", { wood, other, parent: this.version });
      this.fault = { wood: "", words: "" };
      this.dispatchEvent(new CustomEvent("file-changed", { detail: opened, bubbles: true }));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.fault = { wood, words: error.faults.map((each) => `It ${each.rule}. ${each.remedy}`).join(" ") };
    } finally {
      this.busy = false;
    }
  }
}
