/**
 * The files of a piece as text: written, with what is wrong at its line, saved as versions.
 *
 * @fires change-text detail: {what, text}
 * @fires attach      detail: {what, name, text}
 * @fires detach      detail: what
 * @fires save        detail: why
 * @fires step        detail: "undo" or "redo"
 * @fires settle      detail: "merged", "theirs" or "yours"
 */

import { LitElement, html, nothing } from "lit";
import { allTold, toMend, told } from "../lib/faults.js";
import { keptWords } from "../lib/this-browser.js";
import { faultList, textClash } from "./text-clash.js";

/** @typedef {import("./lined-text.js").LinedText} LinedText */
/** @typedef {import("../types.js").WritingState} WritingState */
/** @typedef {import("../types.js").FaultView} FaultView */
/** @typedef {"piece" | "shop" | "rack" | "room" | "bench"} What */

const FILES = Object.freeze(/** @type {const} */ ([
  ["piece", "The piece"],
  ["shop", "Shop"],
  ["rack", "Rack"],
  ["room", "Room"],
  ["bench", "Bench notes"],
]));
/** What stands for a file that is not given. */
const WITHOUT = Object.freeze({
  shop: "No shop of its own: it is planned for the usual one-person shop.",
  rack: "No rack: what to buy is planned.",
  room: "No room of its own: it is planned for a house with dry winters.",
  bench: "No notes from the bench: what is marked on the page of its boards is written here.",
});

/** What is known by its name alone. @param {What} what @param {string} name */
function called(what, name) {
  return what === "rack" ? "The timber in the stockroom, as it is whenever this is planned." : `The typical room ${name}.`;
}

export class TextDesk extends LitElement {
  /** @override */
  static properties = { state: { attribute: false }, what: { state: true } };

  #led = false;

  constructor() {
    super();
    /** @type {WritingState | null} */
    this.state = null;
    /** @type {What} */
    this.what = "piece";
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const { state } = this;
    if (!state) return nothing;
    if (!state.content) return html`<p class="notice ${state.refused.length ? "bad" : ""}" role="status">${allTold(state.refused).join(" ") || "Opening ..."}</p>`;
    return html`${this.#keys(state)} ${state.clash ? textClash(state.clash, (way) => this.#tell("settle", way)) : nothing} ${this.#files()} ${this.#text(state)} ${this.#side(state)}`;
  }

  /** @param {WritingState} state */
  #keys({ piece, changed, held, busy, said, refused, clash, faults }) {
    const [first] = faults;
    return html`<div class="bar">
      <button type="button" class="key main" ?disabled=${!changed || busy} @click=${() => this.#tell("save", "")}>Save</button>
      <button type="button" class="key" ?disabled=${piece?.undo == null || busy || changed} @click=${() => this.#tell("step", "undo")}>Undo</button>
      <button type="button" class="key" ?disabled=${piece?.redo == null || busy || changed} @click=${() => this.#tell("step", "redo")}>Redo</button>
      <p role="status">${said} ${changed || !said ? (changed ? `Not saved yet; ${keptWords(held)}.` : `Version ${piece?.version}, saved.`) : nothing}</p>
      ${first ? html`<button type="button" class="point" @click=${() => void this.#goTo(first)}>${toMend(faults, first)}</button>` : nothing}
      ${clash ? nothing : refused.map((each) => html`<p class="fault">${told(each)}</p>`)}
    </div>`;
  }

  #files() {
    return html`<div class="files" role="group" aria-label="Which file">
      ${FILES.map(
        ([what, label]) => html`<button type="button" class="key" aria-pressed=${String(this.what === what)} @click=${() => (this.what = what)}>
          ${label}${this.#faultsOf(what).length ? html` <b class="count" aria-label="faults">${this.#faultsOf(what).length}</b>` : nothing}
        </button>`,
      )}
    </div>`;
  }

  /** @param {WritingState} state */
  #text({ content }) {
    if (!content) return nothing;
    const { what } = this;
    const file = what === "piece" ? { name: "piece.yaml", text: content.piece } : content[what];
    if (!file || file.text === null)
      return html`<div class="sheet-of-text">
        <p class="notice">${file ? called(what, file.name) : WITHOUT[/** @type {keyof typeof WITHOUT} */ (what)]}</p>
        <div class="ways">${this.#taking(what)}</div>
      </div>`;
    const faults = this.#faultsOf(what);
    return html`<div class="sheet-of-text">
      <lined-text
        .text=${file.text}
        .faults=${faults}
        .label=${`Text of ${what}`}
        @type-text=${(/** @type {CustomEvent<string>} */ event) => this.#tell("change-text", { what, text: event.detail })}
      ></lined-text>
      ${what === "piece" ? nothing : html`<div class="ways">${this.#taking(what)} <button type="button" class="key quiet" @click=${() => this.#tell("detach", what)}>Plan without it</button></div>`}
    </div>`;
  }

  /** @param {What} what */
  #taking(what) {
    const stock = what === "rack" && this.state?.content?.rack?.text !== null;
    return html`${stock ? html`<button type="button" class="key" @click=${() => this.#tell("attach", { what, name: "stockroom", text: null })}>Plan with the stockroom</button>` : nothing}
      <label class="key">Take a file <input type="file" accept=".yaml,.yml,.csv" @change=${(/** @type {Event} */ event) => this.#take(event, what)} /></label>`;
  }

  /** @param {Event} event @param {What} what */
  async #take(event, what) {
    const field = /** @type {HTMLInputElement} */ (event.target);
    const [file] = field.files ?? [];
    if (!file) return;
    const text = await file.text();
    field.value = "";
    this.#tell("attach", { what, name: file.name, text });
  }

  /** @param {WritingState} state */
  #side({ faults, versions, draft, changed, busy }) {
    return html`<aside>
      <section aria-live="polite">
        <h2>${faults.length ? `${faults.length} to mend` : "Nothing wrong with it"}</h2>
        ${faults.length
          ? faultList(faults, (each) => void this.#goTo(each))
          : draft
            ? html`<p><a class="key quiet" href=${`/drafts/${draft}/`} target="_blank" rel="noopener">See it as it is written</a></p>`
            : nothing}
      </section>
      <section id="versions" tabindex="-1">
        <h2>Versions</h2>
        <version-list .versions=${versions} .still=${changed || busy}></version-list>
      </section>
    </aside>`;
  }

  /** Whoever came to look at the versions is led to them once they are there. @override */
  updated() {
    if (this.#led || !this.state?.versions.length) return;
    this.#led = true;
    if (location.hash === "#versions") this.querySelector("#versions")?.scrollIntoView();
  }

  /** @param {What} what @returns {FaultView[]} */
  #faultsOf(what) {
    const { state } = this;
    const name = what === "piece" ? "piece.yaml" : state?.content?.[what]?.name;
    return (state?.faults ?? []).filter((each) => each.file === name);
  }

  /** @param {FaultView} fault */
  async #goTo(fault) {
    const what = FILES.find(([each]) => this.#faultsOf(each).includes(fault))?.[0] ?? "piece";
    this.what = what;
    await this.updateComplete;
    const lined = /** @type {LinedText | null} */ (this.querySelector("lined-text"));
    await lined?.updateComplete;
    if (fault.line) lined?.goTo(fault.line);
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}
