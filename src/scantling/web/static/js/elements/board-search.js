/**
 * The search for a better layout: begun and stopped by key, each better one told as it comes.
 *
 * @fires search-boards detail: how long, in seconds
 * @fires stop-search
 * @fires keep-search
 */

import { LitElement, html, nothing } from "lit";
import { clockWords } from "../lib/boards.js";

/** @typedef {import("../board-types.js").SearchState} SearchState */

const LONG = Object.freeze(/** @type {const} */ ([["60", "a minute"], ["300", "5 minutes"], ["900", "15 minutes"]]));

export class BoardSearch extends LitElement {
  /** @override */
  static properties = { state: { attribute: false }, proven: { type: Boolean }, seconds: { state: true }, now: { state: true } };

  constructor() {
    super();
    /** @type {SearchState | null} */
    this.state = null;
    /** whether no better layout than the one on show exists */
    this.proven = false;
    /** @type {string} */
    this.seconds = "60";
    this.now = 0;
    /** @type {ReturnType<typeof setInterval> | undefined} */
    this.ticking = undefined;
  }

  /** @override */
  createRenderRoot() {
    return this; // the styles of the page are ours as well
  }

  /** @override @param {Map<PropertyKey, unknown>} changed */
  updated(changed) {
    if (!changed.has("state")) return;
    const on = this.state?.on ?? false;
    if (on && !this.ticking) this.ticking = setInterval(() => (this.now = Date.now()), 1000);
    if (!on && this.ticking) {
      clearInterval(this.ticking);
      this.ticking = undefined;
    }
  }

  /** @override */
  render() {
    const { state } = this;
    if (!state) return nothing;
    const { on, last, best, said, begun } = state;
    if (this.proven && !on && !best) return html`<p class="search best" role="status"><b>Proven best:</b> nothing better exists on these boards, so there is nothing to search for.</p>`;
    const since = on ? clockWords(Math.max(0, (this.now || Date.now()) - begun)) : "";
    return html`<section class="search" aria-label="Search for a better layout">
      <div class="ways">
        ${on
          ? html`<button type="button" class="key main" @click=${() => this.#tell("stop-search")}>Stop</button> <span class="clock">${since}</span>`
          : html`<button type="button" class="key" @click=${() => this.#tell("search-boards", this.seconds)}>Search for a better layout</button>
              <label>for at most
                <select @change=${(/** @type {Event} */ event) => (this.seconds = /** @type {HTMLSelectElement} */ (event.target).value)}>
                  ${LONG.map(([value, label]) => html`<option value=${value} .selected=${value === this.seconds}>${label}</option>`)}
                </select>
              </label>`}
        ${best ? html`<button type="button" class="key main" @click=${() => this.#tell("keep-search")}>Keep this layout</button>` : nothing}
      </div>
      <div role="status">
        ${last ? html`<p><b>${upper((best ?? last).words)}.</b> ${best || on ? (best ?? last).beside : nothing}</p>` : on ? html`<p>Searching ...</p>` : nothing}
        ${said ? html`<p>${said}</p>` : nothing}
      </div>
    </section>`;
  }

  /** @param {string} event @param {unknown} [detail] */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}

/** @param {string} words */
function upper(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
