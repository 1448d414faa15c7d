/**
 * The file itself, to be written by hand; comments stay where they are written.
 *
 * @fires change-kept detail: {what, change, said}
 */

import { LitElement, html, nothing } from "lit";
import { live } from "lit/directives/live.js";
import { placed } from "../lib/lines.js";

/** @typedef {import("../profile-types.js").DeskState} DeskState */

export class ProfileText extends LitElement {
  /** @override */
  static properties = { state: { attribute: false }, kind: {}, text: { state: true } };

  constructor() {
    super();
    /** @type {DeskState | null} */
    this.state = null;
    this.kind = "shops";
    /** @type {string | null} what is written and not saved; null where it is as it is kept */
    this.text = null;
    /** number of the one the text is written for */
    this.of = 0;
    /** what is written for the others and not saved, by their number @type {Map<number, string>} */
    this.waiting = new Map();
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** What is written for one is never saved into another: it waits until that one is chosen again. @override */
  willUpdate() {
    const of = this.state?.opened?.profile.number ?? 0;
    if (of === this.of) return;
    if (this.text === null) this.waiting.delete(this.of);
    else this.waiting.set(this.of, this.text);
    this.text = this.waiting.get(of) ?? null;
    this.of = of;
  }

  /** @override */
  render() {
    const { state } = this;
    if (!state?.opened) return nothing;
    const kept = String(state.opened.text);
    const text = this.text ?? kept;
    const faults = this.text === null ? [] : state.faults.filter((fault) => fault.line);
    return html`<details class="fold">
      <summary><span class="fold-title">Its file as text</span> <span class="inside">${kept.split("\n").length - 1} lines, comments and all</span></summary>
      <div class="lined">
        <pre class="numbers" aria-hidden="true">${placed(text, faults).map(({ bad, number }) => html`<span class=${bad ? "bad" : ""}>${number}\n</span>`)}</pre>
        <textarea
          aria-label="Text of the file"
          spellcheck="false"
          autocapitalize="off"
          wrap="off"
          rows=${text.split("\n").length + 1}
          .value=${live(text)}
          @input=${(/** @type {Event} */ event) => (this.text = /** @type {HTMLTextAreaElement} */ (event.target).value)}
        ></textarea>
      </div>
      <div class="ways">
        <button type="button" class="key main" ?disabled=${this.text === null || text === kept || state.busy} @click=${() => this.#save(text)}>Save the text</button>
        <button type="button" class="key" ?disabled=${this.text === null} @click=${() => (this.text = null)}>As it is kept</button>
      </div>
    </details>`;
  }

  /** @param {string} text */
  #save(text) {
    const done = () => {
      if (this.text === text) this.text = null;
    };
    const detail = { what: "versions", change: { text, why: "Written by hand" }, said: "Saved.", done };
    this.dispatchEvent(new CustomEvent("change-kept", { detail, bubbles: true }));
  }
}
