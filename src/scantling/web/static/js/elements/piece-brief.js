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
  static properties = { number: { type: Number }, version: { attribute: false }, fields: { state: true }, faults: { state: true } };

  #parent = 0;
  /** One question after the other: each change is made from the version the one before it left. @type {Promise<void>} */
  #asking = Promise.resolve();

  constructor() {
    super();
    /** number of the piece; 0 where it is not kept */
    this.number = 0;
    this.version = 0;
    /** @type {BriefField[]} */
    this.fields = [];
    /** what is typed and not kept, by name: an answer that comes meanwhile does not wipe it @type {Map<string, string>} */
    this.typed = new Map();
    /** why a field could not be so, by name @type {ReadonlyMap<string, string>} */
    this.faults = new Map();
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override @param {Map<string, unknown>} changed */
  updated(changed) {
    if (changed.has("version") && this.number && this.version) this.#next(() => this.#load());
  }

  /** @param {() => Promise<void>} work */
  #next(work) {
    this.#asking = this.#asking.then(work, work);
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
    const faulty = this.faults.has(field.name);
    const typed = (/** @type {Event} */ event) => this.typed.set(field.name, /** @type {HTMLInputElement} */ (event.target).value);
    const said = (/** @type {Event} */ event) => {
      typed(event);
      this.#next(() => this.#say(field.name, /** @type {HTMLInputElement} */ (event.target).value));
    };
    const text = this.typed.get(field.name) ?? field.text;
    const control = field.choices.length
      ? html`<select id=${id} aria-describedby="${id}-about" @change=${said}>
          ${field.choices.map(({ value, label }) => html`<option value=${value} .selected=${live(value === (text || field.usual))}>${label}</option>`)}
        </select>`
      : field.name === ABOUT
        ? html`<textarea id=${id} rows="4" maxlength="2000" .value=${live(text)} @input=${typed} @change=${said}></textarea>`
        : html`<input id=${id} autocomplete="off" spellcheck="false" aria-describedby="${id}-about" aria-invalid=${String(faulty)} .value=${live(text)} @input=${typed} @change=${said} />`;
    return html`<div class="row" ?data-faulty=${faulty}>
      <label for=${id}>${field.label}</label>
      ${control} ${field.name === ABOUT ? nothing : html`<p class="about-it" id="${id}-about">${field.about}</p>`}
      ${faulty ? html`<p class="fault" role="alert">${this.faults.get(field.name)}</p>` : nothing}
    </div>`;
  }

  /** @param {string} name @param {string} text */
  async #say(name, text) {
    const field = this.fields.find((each) => each.name === name);
    if (!field) return;
    const asked = text.trim() === field.usual && !field.text ? "" : text.trim();
    if (asked === field.text) {
      this.#told(name, text, "");
      return;
    }
    try {
      const opened = await changeEntry(this.number, "brief", { name, text: asked, parent: this.#parent });
      this.#parent = opened.piece.version;
      this.fields = this.fields.map((each) => (each === field ? { ...each, text: asked } : each));
      this.#told(name, text, "");
      this.dispatchEvent(new CustomEvent("file-changed", { detail: opened, bubbles: true }));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.#told(name, text, ["Not changed.", ...allTold(error.faults)].join(" "));
    }
  }

  /** What was sent is answered; what was typed on since stays. @param {string} name @param {string} sent @param {string} fault empty where it is kept */
  #told(name, sent, fault) {
    const others = [...this.faults].filter(([each]) => each !== name);
    this.faults = new Map(fault ? [...others, [name, fault]] : others);
    if (!fault && this.typed.get(name) === sent) this.typed.delete(name);
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
