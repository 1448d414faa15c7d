/**
 * What a piece that is kept has over one that is a file: steps back and forth, its sizes kept.
 *
 * @fires keep-sizes
 * @fires step-piece detail: "undo" or "redo"
 */

import { LitElement, html, nothing } from "lit";

/** @typedef {import("../types.js").State} State */

export class PieceBar extends LitElement {
  /** @override */
  static properties = { state: { attribute: false } };

  constructor() {
    super();
    /** @type {State | null} */
    this.state = null;
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const { state } = this;
    if (!state) return nothing;
    return state.kept ? this.#steps(state.kept, state) : nothing;
  }

  /** @param {NonNullable<State["kept"]>} kept @param {State} state */
  #steps(kept, { given, busy }) {
    const changed = Object.keys(given).some((name) => name !== "units");
    return html`<div class="steps">
      ${changed ? html`<button type="button" class="key main" ?disabled=${busy} @click=${() => this.#tell("keep-sizes")}>Keep these sizes</button>` : nothing}
      <button type="button" class="key" ?disabled=${kept.undo === null || changed} @click=${() => this.#tell("step-piece", "undo")}>Undo</button>
      <button type="button" class="key" ?disabled=${kept.redo === null || changed} @click=${() => this.#tell("step-piece", "redo")}>Redo</button>
      <span role="status">${said(kept, changed)}</span>
    </div>`;
  }

  /** @param {string} event @param {unknown} [detail] */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}

/** @param {NonNullable<State["kept"]>} kept @param {boolean} changed */
function said(kept, changed) {
  if (kept.said) return kept.said;
  return changed ? "Sizes tried, not kept yet" : `Version ${kept.version} of ${kept.versions}`;
}
