/**
 * The file itself, to be written by hand; comments stay where they are written. What is not saved yet outlives a reload,
 * and is never saved into another file: it waits until its own is chosen again.
 *
 * @fires change-kept detail: {what, change, said, done}
 */

import { LitElement, html, nothing } from "lit";
import { live } from "lit/directives/live.js";
import { placed } from "../lib/lines.js";
import { keptWords } from "../lib/this-browser.js";
import { UnsavedTexts } from "../lib/unsaved-texts.js";

/** @typedef {import("../profile-types.js").DeskState} DeskState */
/** @typedef {import("../lib/unsaved-texts.js").UnsavedText} UnsavedText */

export class ProfileText extends LitElement {
  /** @override */
  static properties = { state: { attribute: false }, kind: {}, unsaved: { state: true } };

  #texts = new UnsavedTexts();

  constructor() {
    super();
    /** @type {DeskState | null} */
    this.state = null;
    this.kind = "shops";
    /** @type {UnsavedText | null} what is written and not saved; null where it is as it is kept */
    this.unsaved = null;
    /** what the text is written for */
    this.place = "";
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  willUpdate() {
    const number = this.state?.opened?.profile.number;
    const place = number ? `text ${this.kind} ${number}` : "";
    if (place !== this.place) {
      this.place = place;
      this.unsaved = place ? this.#texts.of(place) : null;
    }
    if (this.unsaved?.text === this.state?.opened?.text) this.#letGo(); // it is saved, or typed back
  }

  /** Where a text is found that was not saved, its fold is open. @param {Map<string, unknown>} changed @override */
  updated(changed) {
    const fold = this.querySelector("details");
    if (fold && changed.has("unsaved") && this.unsaved?.again) fold.open = true;
  }

  /** @override */
  render() {
    const { state, unsaved } = this;
    if (!state?.opened) return nothing;
    const kept = String(state.opened.text);
    const text = unsaved?.text ?? kept;
    const faults = unsaved ? state.faults.filter((fault) => fault.line) : [];
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
          @input=${(/** @type {Event} */ event) => this.#write(/** @type {HTMLTextAreaElement} */ (event.target).value)}
        ></textarea>
      </div>
      ${this.#standing()}
      <div class="ways">
        <button type="button" class="key main" ?disabled=${!unsaved || text === kept || state.busy} @click=${() => this.#save(text)}>Save the text</button>
        <button type="button" class="key" ?disabled=${!unsaved} @click=${() => this.#letGo()}>As it is kept</button>
      </div>
    </details>`;
  }

  /** How what is written stands to what is kept. */
  #standing() {
    const { unsaved } = this;
    const version = this.#version;
    if (!unsaved) return nothing;
    const begun = html`<p class="notice">
      You began this text on version ${unsaved.version}; version ${version} is kept by now. Saved, your text stands in its place, without what was changed since; version ${version} can be
      had back.
    </p>`;
    return html`${unsaved.version === version ? nothing : begun}
      <p class="said" role="status">${unsaved.again ? "What you wrote and had not saved is here again." : `Not saved yet; ${keptWords(unsaved.held)}.`}</p>`;
  }

  /** @param {string} text */
  #write(text) {
    this.unsaved = this.#texts.write(this.place, text, this.unsaved?.version ?? this.#version);
  }

  get #version() {
    return Number(this.state?.opened?.profile.version ?? 0);
  }

  #letGo() {
    if (!this.unsaved) return;
    this.#texts.letGo(this.place);
    this.unsaved = null;
  }

  /** What is written while it is on its way is begun on what is saved by it. @param {string} text */
  #save(text) {
    const { place } = this;
    const done = () => {
      const since = this.#texts.of(place);
      if (since?.text === text) this.#texts.letGo(place);
      else if (since && place === this.place) this.unsaved = this.#texts.write(place, since.text, this.#version);
    };
    const detail = { what: "versions", change: { text, why: "Written by hand" }, said: "Saved.", done };
    this.dispatchEvent(new CustomEvent("change-kept", { detail, bubbles: true }));
  }
}
