/**
 * What is done with a piece as a whole: its packet printed; where it is kept, sizes kept, steps back and forth, its name.
 *
 * @fires keep-sizes
 * @fires step-piece detail: "undo" or "redo"
 * @fires call-piece detail: the name it is to have
 */

import { LitElement, html, nothing } from "lit";
import { numberOf } from "../api/pieces.js";
import { fileAddress } from "../api/plan.js";
import { sizesOf } from "../lib/given.js";

/** @typedef {import("../types.js").State} State */

/** What stands of a piece that is kept until it is opened, so that nothing below moves then. @type {NonNullable<State["kept"]>} */
const NOT_OPENED = Object.freeze({ version: 0, versions: 0, undo: null, redo: null, said: "" });

export class PieceBar extends LitElement {
  /** @override */
  static properties = { state: { attribute: false }, naming: { state: true }, printing: { state: true } };

  #number = numberOf(location.pathname);
  /** Whether sizes are being kept, by a key that is gone once they are. */
  #keeping = false;

  constructor() {
    super();
    /** @type {State | null} */
    this.state = null;
    this.naming = false;
    this.printing = false;
  }

  /** What was said of the packet is over when the piece is another. @override @param {import("lit").PropertyValues<this>} changed */
  willUpdate(changed) {
    const before = changed.get("state");
    if (before && (before.kept?.version !== this.state?.kept?.version || before.plan?.key !== this.state?.plan?.key)) this.printing = false;
  }

  /** The focus does not go with the key: what was done can be undone at once. @override */
  updated() {
    if (!this.#keeping || !this.state || areTried(this.state)) return;
    this.#keeping = false;
    const undo = /** @type {HTMLButtonElement | null} */ (this.querySelector(".steps button:not(:disabled)"));
    if (document.activeElement === document.body) undo?.focus({ preventScroll: true });
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const { state } = this;
    if (!state) return nothing;
    const kept = state.kept ?? (this.#number ? NOT_OPENED : null);
    return html`${kept && this.naming ? this.#naming(state) : nothing}
      <div class="steps">${kept ? this.#steps(kept, state) : nothing} ${this.#print(state)}</div>
      ${kept ? this.#ways(kept) : nothing}
      <p role="status">${this.printing ? "The packet opens in a tab of its own; setting it takes a few seconds." : kept ? said(kept, state) : ""}</p>`;
  }

  /** @param {NonNullable<State["kept"]>} kept @param {State} state */
  #steps(kept, state) {
    const changed = areTried(state);
    const keep = html`<button type="button" class="key main" ?disabled=${state.busy || state.faults.length > 0} @click=${() => this.#keep()}>
      Keep these sizes
    </button>`;
    return html`${changed ? keep : nothing}
      <button type="button" class="key" ?disabled=${kept.undo === null || changed} @click=${() => this.#tell("step-piece", "undo")}>Undo</button>
      <button type="button" class="key" ?disabled=${kept.redo === null || changed} @click=${() => this.#tell("step-piece", "redo")}>Redo</button>`;
  }

  #keep() {
    this.#keeping = true;
    this.#tell("keep-sizes");
  }

  /** @param {NonNullable<State["kept"]>} kept */
  #ways({ versions }) {
    return html`${this.naming ? nothing : html`<button type="button" class="key quiet" @click=${() => this.#name(true)}>Rename</button>`}
      ${versions > 1 ? html`<a class="key quiet" href="write#versions">Versions</a>` : nothing}`;
  }

  /** The packet of the sizes in the fields, also while their plan is still on its way. @param {State} state */
  #print({ faults, given, from, planned, plannedFrom, plan, shape }) {
    if (!plan) return html`<button type="button" class="key" disabled>Print the packet</button>`; // where it will be
    const paper = shape?.units === "in" ? "letter" : "a4";
    const [base, sizes] = faults.length ? [plannedFrom, planned] : [from, given];
    const href = fileAddress(`${base}api/packet.pdf`, sizes, { paper });
    return html`<a class="key" href=${href} target="_blank" rel="noopener" @click=${() => (this.printing = true)}>Print the packet</a>`;
  }

  /** @param {State} state */
  #naming({ shape }) {
    return html`<form class="naming" @submit=${(/** @type {Event} */ event) => this.#call(event)}>
      <label>Name <input name="name" .value=${shape?.title ?? ""} maxlength="120" required autocomplete="off" /></label>
      <button class="key main">Call it so</button>
      <button type="button" class="key quiet" @click=${() => this.#name(false)}>Leave it</button>
    </form>`;
  }

  /** @param {boolean} naming */
  #name(naming) {
    this.naming = naming;
    void this.updateComplete.then(() => this.querySelector("input")?.select());
  }

  /** @param {Event} event */
  #call(event) {
    event.preventDefault();
    this.naming = false;
    this.#tell("call-piece", this.querySelector("input")?.value.trim());
  }

  /** @param {string} event @param {unknown} [detail] */
  #tell(event, detail) {
    this.printing = false;
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}

/** @param {State} state */
function areTried({ given }) {
  return Object.keys(sizesOf(given)).length > 0;
}

/** @param {NonNullable<State["kept"]>} kept @param {State} state */
function said(kept, state) {
  if (kept.refused && kept.refused === state.given) return kept.said;
  if (areTried(state)) {
    if (state.faults.length) return "A size cannot be so: mend it before the sizes are kept.";
    return `Sizes tried, not kept yet.${state.busy ? " Working out what follows ..." : ""}`;
  }
  if (!kept.version) return kept.said;
  return kept.said || `Version ${kept.version} of ${kept.versions}.`;
}
