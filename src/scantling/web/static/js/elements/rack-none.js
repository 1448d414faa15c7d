/**
 * Where no rack is given: what to buy, and the ways to the boards there are.
 *
 * @fires take-rack  detail: name and text of a rack file; the stockroom has no text
 */

import { LitElement, html, nothing } from "lit";

export class RackNone extends LitElement {
  /** @override */
  static properties = { kept: { type: Boolean } };

  constructor() {
    super();
    this.kept = false;
  }

  /** @override */
  createRenderRoot() {
    return this; // the styles of the page are ours as well
  }

  /** @override */
  render() {
    return html`<div class="ways first">
        <a class="key main" href=${`./${location.search}#boards`}>What to ask the yard for</a>
        ${this.kept
          ? html`<button type="button" class="key" @click=${() => this.#tell({ name: "stockroom", text: null })}>Plan with the stockroom</button>
              <label class="key">Take a rack file <input type="file" accept=".csv,.yaml,.yml" @change=${(/** @type {Event} */ event) => this.#take(event)} /></label>`
          : nothing}
        <a class="key" href=${`yard${location.search}`}>Judge boards at the yard</a>
      </div>
      ${this.kept ? nothing : html`<p>Start it with <code>--rack boards.csv</code> to lay the piece out on boards you have.</p>`}`;
  }

  /** @param {Event} event */
  async #take(event) {
    const field = /** @type {HTMLInputElement} */ (event.target);
    const [file] = field.files ?? [];
    if (!file) return;
    const text = await file.text();
    field.value = "";
    this.#tell({ name: file.name, text });
  }

  /** @param {{name: string, text: string | null}} rack */
  #tell(rack) {
    this.dispatchEvent(new CustomEvent("take-rack", { bubbles: true, detail: rack }));
  }
}
