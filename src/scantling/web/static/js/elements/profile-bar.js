/**
 * Which shop or room is on show, and what is done with it as a whole.
 *
 * @fires open-kept   detail: number
 * @fires begin-kept  detail: {text}, {like} or {}
 * @fires step-kept   detail: "undo" or "redo"
 * @fires put-away
 * @fires restore     detail: number of the version
 */

import { LitElement, html, nothing } from "lit";
import { live } from "lit/directives/live.js";
import { ago } from "../lib/ago.js";

/** @typedef {import("../profile-types.js").DeskState} DeskState */
/** @typedef {import("../profile-types.js").Kind} Kind */

/** @type {Readonly<Record<Kind, {one: string, which: string}>>} */
const WORDS = Object.freeze({ shops: { one: "shop", which: "Which shop" }, rooms: { one: "room", which: "Which of my rooms" } });

export class ProfileBar extends LitElement {
  /** @override */
  static properties = { state: { attribute: false }, kind: {} };

  constructor() {
    super();
    /** @type {DeskState | null} */
    this.state = null;
    /** @type {Kind} */
    this.kind = "shops";
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const { state } = this;
    if (!state?.opened) return nothing;
    const { profile } = state.opened;
    const { one } = WORDS[this.kind];
    return html`
      <div class="which">
        ${this.#which(state)}
        <button type="button" class="key" ?disabled=${profile.undo === null || state.busy} @click=${() => this.#tell("step-kept", "undo")}>Undo</button>
        <button type="button" class="key" ?disabled=${profile.redo === null || state.busy} @click=${() => this.#tell("step-kept", "redo")}>Redo</button>
        <p role="status">${state.said || `Version ${profile.version} of ${profile.versions}`}</p>
      </div>
      <details class="fold">
        <summary><span class="fold-title">Files, versions, another ${one}</span></summary>
        <div class="ways">
          <a class="key" href=${`/api/${this.kind}/${profile.number}/file`}>As a file</a>
          <label class="key">Read in a file <input type="file" accept=".yaml,.yml" @change=${(/** @type {Event} */ event) => this.#file(event)} /></label>
          <button type="button" class="key" ?disabled=${state.busy} @click=${once(() => this.#tell("begin-kept", { like: profile.number }))}>A copy of this one</button>
          ${this.kind === "shops" ? html`<button type="button" class="key" ?disabled=${state.busy} @click=${once(() => this.#tell("begin-kept", {}))}>A new shop</button>` : nothing}
          <button type="button" class="key quiet" ?disabled=${state.busy} @click=${once(() => this.#tell("put-away"))}>Put this one away</button>
        </div>
        <ol class="versions">
          ${state.versions.map(
            (each) => html`<li aria-current=${each.current ? "true" : nothing}>
              <b>${each.number}</b>
              <span>${each.why || "Saved"}<small>${ago(each.madeAt, Date.now())}</small></span>
              ${each.current
                ? html`<em>current</em>`
                : html`<button type="button" class="key quiet" ?disabled=${state.busy} aria-label=${`Bring back version ${each.number}`} @click=${once(() => this.#tell("restore", each.number))}>Bring back</button>`}
            </li>`,
          )}
        </ol>
      </details>
    `;
  }

  /** @param {DeskState} state */
  #which({ kept, opened }) {
    if (kept.length < 2) return html`<h2>${opened.profile.name}</h2>`;
    return html`<select aria-label=${WORDS[this.kind].which} .value=${live(String(opened.profile.number))} @change=${(/** @type {Event} */ event) => this.#tell("open-kept", Number(/** @type {HTMLSelectElement} */ (event.target).value))}>
      ${kept.map((each) => html`<option value=${each.number} ?selected=${each.number === opened.profile.number}>${each.name}</option>`)}
    </select>`;
  }

  /** @param {Event} event */
  async #file(event) {
    const field = /** @type {HTMLInputElement} */ (event.target);
    const [file] = field.files ?? [];
    if (!file) return;
    const text = await file.text();
    field.value = "";
    this.#tell("begin-kept", { text });
  }

  /** @param {string} event @param {unknown} [detail] */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}

/** The second tap of two in a row does nothing: the key may be another one's by then. @param {() => void} action @returns {(event: MouseEvent) => void} */
function once(action) {
  return ({ detail }) => {
    if (detail < 2) action();
  };
}
