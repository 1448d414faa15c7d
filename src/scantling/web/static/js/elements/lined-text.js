/**
 * A text with its lines numbered: those at fault, those of the entry that is looked at, those just changed are marked.
 * A text that comes from elsewhere is put in line by line, so that cursor and place stay.
 *
 * @fires type-text   detail: the text
 * @fires cursor-line detail: the line the cursor was put on, from 1
 */

import { LitElement, html } from "lit";
import { hunks, placed, startOf } from "../lib/lines.js";

/** @typedef {import("../types.js").FaultView} FaultView */

export class LinedText extends LitElement {
  /** @override */
  static properties = { text: {}, label: {}, faults: { attribute: false }, held: { attribute: false }, fresh: { attribute: false } };

  /** @type {number | null} where the cursor was told to be last */
  #line = null;

  constructor() {
    super();
    this.text = "";
    this.label = "Text";
    /** @type {ReadonlyArray<{line?: number}>} */
    this.faults = [];
    /** @type {readonly [number, number] | null} first and last line of the entry that is looked at */
    this.held = null;
    /** @type {readonly number[]} */
    this.fresh = [];
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const fresh = new Set(this.fresh);
    const [first, last] = this.held ?? [0, -1];
    const look = (/** @type {number} */ line, /** @type {boolean} */ bad) =>
      [bad ? "bad" : "", line >= first && line <= last ? "held" : "", fresh.has(line) ? "fresh" : ""].filter(Boolean).join(" ");
    const lines = placed(this.text, this.faults);
    return html`<div class="lined">
      <pre class="numbers" aria-hidden="true">${lines.map(({ bad, number }) => html`<span class=${look(number, bad)}>${number}\n</span>`)}</pre>
      <textarea
        aria-label=${this.label}
        spellcheck="false"
        autocapitalize="off"
        autocomplete="off"
        wrap="off"
        rows=${lines.length + 1}
        @input=${(/** @type {Event} */ event) => this.#type(/** @type {HTMLTextAreaElement} */ (event.target).value)}
        @keyup=${() => this.#follow()}
        @click=${() => this.#follow()}
      ></textarea>
    </div>`;
  }

  /** @override */
  updated() {
    const field = this.field;
    if (!field || field.value === this.text) return;
    if (!field.value) field.value = this.text;
    else this.#put(field);
  }

  /** @returns {HTMLTextAreaElement | null} */
  get field() {
    return this.querySelector("textarea");
  }

  /** Put the text in where it is otherwise, from its end; what is in sight stays where it is. @param {HTMLTextAreaElement} field */
  #put(field) {
    const scroller = /** @type {HTMLElement} */ (this);
    const top = scroller.scrollTop;
    const high = this.#high(field);
    const seen = Math.floor(top / high);
    let above = 0;
    for (const { at, gone, come } of hunks(field.value, this.text).reverse()) {
      const lines = field.value.split("\n");
      const [from, to] = [startOf(field.value, at + 1), startOf(field.value, at + gone + 1)];
      const end = at + gone >= lines.length;
      // the last line ends without a break: the one before it goes or comes with it
      const [start, stop] = end ? [Math.max(0, from - 1), field.value.length] : [from, to];
      const put = come.map((line) => (end ? `\n${line}` : `${line}\n`)).join("");
      field.setRangeText(end && from === 0 ? put.slice(1) : put, start, stop, "preserve");
      if (at < seen) above += come.length - gone;
    }
    if (field.value !== this.text) field.value = this.text;
    if (above) scroller.scrollTop = top + above * high;
  }

  /** @param {HTMLTextAreaElement} field */
  #high(field) {
    return Number.parseFloat(getComputedStyle(field).lineHeight) || 1;
  }

  /** @param {string} text */
  #type(text) {
    this.text = text;
    this.#tell("type-text", text);
    this.#follow();
  }

  /** Tell which line the cursor is on, where it has come to another. */
  #follow() {
    const field = this.field;
    if (!field) return;
    const line = field.value.slice(0, field.selectionStart).split("\n").length;
    if (line === this.#line) return;
    this.#line = line;
    this.#tell("cursor-line", line);
  }

  /** Forget where the cursor was, so that it is told again. */
  lose() {
    this.#line = null;
  }

  /** Put the cursor over a line, and the line in sight. @param {number} line from 1 */
  goTo(line) {
    const field = this.field;
    if (!field) return;
    const start = startOf(field.value, line);
    field.focus({ preventScroll: true });
    field.setSelectionRange(start, start + (field.value.split("\n")[line - 1]?.length ?? 0));
    this.show(line, line, true);
    this.#follow();
  }

  /**
   * Bring lines in sight; those that are there already stay where they are, unless they are to be led to.
   *
   * @param {number} first from 1
   * @param {number} last
   * @param {boolean} [leading]
   */
  show(first, last, leading = false) {
    const field = this.field;
    if (!field) return;
    const scroller = /** @type {HTMLElement} */ (this);
    const high = this.#high(field);
    if (getComputedStyle(this).overflowY === "visible") {
      scrollTo({ top: this.offsetTop + (first - 7) * high });
      return;
    }
    const [top, foot] = [(first - 1) * high, last * high];
    const whole = top >= scroller.scrollTop && foot <= scroller.scrollTop + scroller.clientHeight - high;
    if (leading || !whole) scroller.scrollTop = Math.max(0, top - 2 * high);
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}
