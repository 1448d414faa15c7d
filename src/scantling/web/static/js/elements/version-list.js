/**
 * Every version of a piece there has been.
 *
 * @fires restore detail: number of the version to bring back
 */

import { LitElement, html, nothing } from "lit";
import { ago } from "../lib/ago.js";

/** @typedef {import("../types.js").VersionBody} VersionBody */

export class VersionList extends LitElement {
  /** @override */
  static properties = { versions: { attribute: false }, still: { attribute: false } };

  constructor() {
    super();
    /** @type {VersionBody[]} */
    this.versions = [];
    /** Whether none can be brought back just now: it would take the place of what is not saved. */
    this.still = false;
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    if (!this.versions.length) return nothing;
    return html`<ol class="versions">
      ${this.versions.map(
        (each) => html`<li aria-current=${each.current ? "true" : nothing}>
          <b>${each.number}</b>
          <span>${each.why || "Saved"}<small>${ago(each.madeAt, Date.now())}${each.restores ? `, from ${each.restores}` : ""}</small></span>
          ${each.current
            ? html`<em>current</em>`
            : html`<a class="key quiet" href=${`versions/${each.number}/`}>Look</a>
                <button type="button" class="key quiet" ?disabled=${this.still} aria-label=${`Bring back version ${each.number}`} @click=${() => this.#restore(each.number)}>Bring back</button>`}
        </li>`,
      )}
    </ol>`;
  }

  /** @param {number} version */
  #restore(version) {
    this.dispatchEvent(new CustomEvent("restore", { detail: version, bubbles: true }));
  }
}
