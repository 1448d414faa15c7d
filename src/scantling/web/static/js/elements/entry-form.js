/**
 * A part and its joints as the piece file has them, to be changed in place; each change is a version.
 *
 * @fires file-changed detail: the piece as it is kept then
 * @fires add-part     a new part is wanted at this one
 */

import { LitElement, html, nothing } from "lit";
import { live } from "lit/directives/live.js";
import { askEntries, changeEntry } from "../api/entries.js";
import { numberOf } from "../api/pieces.js";
import { Refused } from "../api/plan.js";
import { allTold } from "../lib/faults.js";

/** @typedef {import("../types.js").EntryBody} EntryBody */

export class EntryForm extends LitElement {
  /** @override */
  static properties = { chosen: { attribute: false }, version: { attribute: false }, parts: { attribute: false }, entries: { state: true }, fault: { state: true }, copying: { state: true }, unfolded: { state: true } };

  #number = numberOf(location.pathname);
  #parent = 0;
  /** One change after the other: each is made from the version the one before it left. @type {Promise<void>} */
  #sending = Promise.resolve();
  /** paths whose text waits to be sent @type {Set<string>} */
  #waiting = new Set();
  #sent = 0;

  constructor() {
    super();
    this.chosen = "";
    this.version = 0;
    /** all parts, whose middles a copy may be mirrored about @type {import("../types.js").PartView[]} */
    this.parts = [];
    /** @type {EntryBody[]} */
    this.entries = [];
    this.fault = "";
    /** what is being typed, by path: entries fetched again in the meantime do not wipe it @type {Map<string, string>} */
    this.typed = new Map();
    this.copying = false;
    /** what is unfolded stays so for another part, and while its entries are fetched again */
    this.unfolded = false;
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override @param {Map<string, unknown>} changed */
  updated(changed) {
    if (changed.has("chosen")) {
      this.typed.clear();
      this.copying = false;
    }
    else if (changed.has("version")) this.#forget();
    if (!changed.has("chosen") && !changed.has("version")) return;
    const loading = this.#load();
    this.#sending = this.#sending.then(
      () => loading,
      () => loading,
    );
  }

  /** @override */
  render() {
    if (!this.#number || !this.entries.length) return nothing;
    return html`<details class="entries" ?open=${live(this.unfolded)} @toggle=${(/** @type {Event} */ event) => (this.unfolded = /** @type {HTMLDetailsElement} */ (event.target).open)}>
      <summary @click=${(/** @type {Event} */ event) => this.#fold(event)}>As it is written, to change</summary>
      ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
      ${this.entries.map(
        (entry) => html`<fieldset>
          <legend>${entry.title}</legend>
          ${entry.fields.map(
            (field) => html`<label>
              <span>${field.name}</span>
              <input spellcheck="false" autocomplete="off" data-path=${String(field.path)} .value=${live(this.typed.get(String(field.path)) ?? field.text)} @input=${(/** @type {Event} */ event) => this.typed.set(String(field.path), /** @type {HTMLInputElement} */ (event.target).value)} @change=${(/** @type {Event} */ event) => this.#change(field.path, /** @type {HTMLInputElement} */ (event.target).value, field.text)} />
            </label>`,
          )}
          <div class="ways">
            ${entry.path[0] === "parts" ? html`<button type="button" class="key quiet" aria-expanded=${String(this.copying)} @click=${() => (this.copying = !this.copying)}>Make another</button>
              <button type="button" class="key quiet" @click=${() => this.dispatchEvent(new CustomEvent("add-part", { bubbles: true }))}>Add a part at it</button>` : nothing}
            <button type="button" class="key quiet" @click=${() => this.#remove(entry)}>Take out</button>
          </div>
          ${entry.path[0] === "parts" && this.copying ? this.#copy() : nothing}
        </fieldset>`,
      )}
    </details>`;
  }

  /** At once, not when the browser tells of it: what is drawn anew in between would fold it again. @param {Event} event */
  #fold(event) {
    event.preventDefault();
    this.unfolded = !this.unfolded;
  }

  #copy() {
    return html`<div class="copy">
      <label><span>Name</span><input name="name" .value=${`${this.chosen}_copy`} /></label>
      <label><span>Mirrored</span><select name="mirror"><option value="">not</option><option>left-right</option><option>front-back</option></select></label>
      <label><span>Mirrored about</span><select name="about"><option value="">the middle of the piece</option>${this.parts.map(({ name, label }) => html`<option value=${name}>the middle of ${label.toLowerCase()}</option>`)}</select></label>
      <label><span>Moved right, back, up</span><input name="move" placeholder="200 mm, 0, 0" /></label>
      <button type="button" class="key" @click=${() => this.#make()}>Make it</button>
    </div>`;
  }

  async #load() {
    this.fault = "";
    const [asked, sent] = [this.chosen, this.#sent];
    if (!this.#number || !asked) return;
    try {
      const { version, entries } = await askEntries(this.#number, asked);
      // another part was picked meanwhile, or this one changed, of which is asked anew
      if (asked !== this.chosen || sent !== this.#sent) return;
      this.#parent = version;
      this.entries = entries;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.entries = [];
    }
  }

  /** @param {string[]} path @param {string} text @param {string} before */
  #change(path, text, before) {
    if (text.trim() === before) this.typed.delete(String(path));
    else this.#send("entries", { path, text });
  }

  /** Let go of what was refused once the piece is another; what is being typed or sent now stays. */
  #forget() {
    const path = /** @type {HTMLElement | null} */ (this.querySelector("input:focus"))?.dataset["path"];
    for (const each of [...this.typed.keys()]) if (each !== path && !this.#waiting.has(each)) this.typed.delete(each);
  }

  /** @param {EntryBody} entry */
  #remove(entry) {
    this.#send("entries/remove", { path: entry.path });
  }

  #make() {
    const value = (/** @type {string} */ name) => /** @type {HTMLInputElement} */ (this.querySelector(`.copy [name=${name}]`)).value.trim();
    const mirror = value("mirror") ? [value("mirror")] : [];
    const move = value("move") ? value("move").split(",").map((each) => each.trim()) : [];
    this.#send("copies", { part: this.chosen, name: value("name"), mirror, about: mirror.length ? value("about") : "", move });
  }

  /** @param {Parameters<typeof changeEntry>[1]} what @param {Record<string, unknown>} change */
  #send(what, change) {
    const path = String(change["path"]);
    this.#waiting.add(path);
    const work = () => this.#write(what, change).finally(() => this.#waiting.delete(path));
    this.#sending = this.#sending.then(work, work);
  }

  /** @param {Parameters<typeof changeEntry>[1]} what @param {Record<string, unknown>} change */
  async #write(what, change) {
    try {
      const opened = await changeEntry(this.#number, what, { ...change, parent: this.#parent });
      this.#parent = opened.piece.version;
      this.#sent += 1;
      this.fault = "";
      if (what === "copies") this.copying = false;
      const path = String(change["path"]);
      if (this.typed.get(path) === change["text"]) this.typed.delete(path); // else it was typed on
      this.dispatchEvent(new CustomEvent("file-changed", { detail: opened, bubbles: true }));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.fault = ["Not changed.", ...allTold(error.faults)].join(" ");
    }
  }
}
