/**
 * The piece file beside the picture of the piece: opened by a key, remembered in this browser.
 *
 * @fires show-beside detail: whether it is open
 * @fires type-beside detail: the text
 * @fires at-line     detail: the line the cursor was put on, from 1
 * @fires tell-beside detail: "save", "drop", "bringBack" or "writeGiven"
 * @fires settle      detail: "merged", "theirs" or "yours"
 *
 * Keyboard: Tab leaves the text as it leaves any field, Escape leads to the picture, Control and S saves.
 */

import { allTold, toMend } from "../lib/faults.js";
import { keptWords } from "../lib/this-browser.js";
import { LitElement, html, nothing } from "lit";
import { faultList, textClash } from "./text-clash.js";

/** @typedef {import("../types.js").WritingState} WritingState */
/** @typedef {import("./lined-text.js").LinedText} LinedText */

const FILE = "piece.yaml";

export class TextBeside extends LitElement {
  /** @override */
  static properties = { state: { attribute: false }, open: { type: Boolean }, held: { attribute: false }, waits: { type: Boolean } };

  constructor() {
    super();
    /** @type {WritingState | null} */
    this.state = null;
    this.open = false;
    /** whether something typed waits to be saved while it is shut */
    this.waits = false;
    /** @type {readonly [number, number] | null} lines of the entry that is looked at */
    this.held = null;
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const { state } = this;
    this.toggleAttribute("data-open", this.open);
    const waits = this.open ? state?.changed : this.waits;
    return html`<section aria-label="The piece file" @keydown=${(/** @type {KeyboardEvent} */ event) => this.#key(event)}>
      <div class="bar">
        <button type="button" class="key quiet leaf" aria-expanded=${String(this.open)} @click=${() => this.#tell("show-beside", !this.open)}>
          ${this.open ? "Put the text away" : "Text beside the piece"}${waits && !this.open ? html` <small>not saved</small>` : nothing}
        </button>
        ${this.open && state?.content ? this.#keys(state) : nothing}
      </div>
      ${this.open && state ? this.#leaf(state) : nothing}
    </section>`;
  }

  /** @param {WritingState} state */
  #keys({ changed, busy, dropped }) {
    return html`<button type="button" class="key main" ?disabled=${!changed || busy} @click=${() => this.#tell("tell-beside", "save")}>Save the text</button>
      <button type="button" class="key" ?disabled=${!changed || busy} @click=${() => this.#tell("tell-beside", "drop")}>Back to what is saved</button>
      ${dropped && !changed ? html`<button type="button" class="key" @click=${() => this.#tell("tell-beside", "bringBack")}>Bring back what I typed</button>` : nothing}`;
  }

  /** @param {WritingState} state */
  #leaf(state) {
    const { content, refused, clash, faults, fresh, said, changed, piece } = state;
    if (!content) return html`<p class="notice" role="status">${words(refused) || "Opening ..."}</p>`;
    const standing = changed ? `Not saved yet; ${keptWords(state.held)}.` : `Version ${piece?.version}, saved.`;
    const [first] = faults.filter((each) => each.file === FILE && each.line);
    const at = first ? html` <button type="button" class="point" @click=${() => this.#goTo(first)}>${toMend(faults, first)}</button>` : nothing;
    return html`<p class="standing" role="status">${said} ${changed || !said ? standing : nothing}${at}</p>
      ${refused.length && !clash ? html`<p class="fault" role="alert">${words(refused)}</p>` : nothing}
      ${clash ? textClash(clash, (way) => this.#tell("settle", way), "Changed on the page meanwhile") : nothing}
      ${this.#given(content.given)}
      <lined-text
        .text=${content.piece}
        .label=${"Text of the piece file"}
        .faults=${faults.filter((each) => each.file === FILE)}
        .held=${this.held}
        .fresh=${fresh}
        @type-text=${(/** @type {CustomEvent<string>} */ event) => this.#tell("type-beside", event.detail)}
        @cursor-line=${(/** @type {CustomEvent<number>} */ event) => this.#tell("at-line", event.detail)}
      ></lined-text>
      <div class="wrong" aria-live="polite">
        ${faults.length
          ? html`<p class="fault">${faults.length} to mend. Until then the piece stays drawn as it was.</p>
              ${faultList(faults, (each) => this.#goTo(each))}`
          : nothing}
      </div>`;
  }

  /** Sizes that are kept apart from the text, which would pass over what it says. @param {Record<string, string>} given */
  #given(given) {
    const names = Object.entries(given);
    if (!names.length) return nothing;
    const sizes = names.map(([name, size]) => `${name.replaceAll("_", " ")} ${size}`).join(", ");
    return html`<div class="apart">
      <p>Kept apart from the text, and counting before it: ${sizes}.</p>
      <button type="button" class="key quiet" @click=${() => this.#tell("tell-beside", "writeGiven")}>Write it in the text</button>
    </div>`;
  }

  /** @returns {LinedText | null} */
  get lined() {
    return this.querySelector("lined-text");
  }

  /** @param {import("../types.js").FaultView} fault */
  #goTo(fault) {
    if (fault.file !== FILE || !fault.line) return;
    this.lined?.goTo(fault.line);
    // on a phone it scrolls with the page, and the fault stands below it
    if (getComputedStyle(this).position !== "sticky") this.lined?.scrollIntoView({ block: "nearest" });
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if ((event.ctrlKey || event.metaKey) && event.key === "s") {
      event.preventDefault();
      this.#tell("tell-beside", "save");
    }
    if (event.key === "Escape" && event.target instanceof HTMLTextAreaElement) {
      event.stopPropagation();
      /** @type {HTMLElement | null} */ (document.querySelector("piece-plate"))?.focus();
    }
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}

/** @param {readonly import("../types.js").FaultView[]} faults */
function words(faults) {
  return allTold(faults).join(" ");
}
