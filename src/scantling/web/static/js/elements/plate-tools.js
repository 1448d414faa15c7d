/**
 * Looking closer at the picture: cut the piece open, measure between two edges.
 *
 * @fires cut-open  detail: {cut, share}; cut is empty for the whole piece
 * @fires measure   detail: boolean, whether taps pick edges
 */

import { LitElement, html, nothing } from "lit";

/** @typedef {import("../types.js").State} State */

const CUTS = Object.freeze([
  ["", "Whole"],
  ["across", "Across"],
  ["lengthwise", "Lengthwise"],
  ["level", "Level"],
]);

export class PlateTools extends LitElement {
  /** @override */
  static properties = { state: { attribute: false }, open: { state: true } };

  constructor() {
    super();
    /** @type {State | null} */
    this.state = null;
    /** Whether it is shown where there is no room for it beside the picture. */
    this.open = false;
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const { state } = this;
    if (!state?.shape) return nothing;
    const { cut, share, measuring, measured } = state;
    this.toggleAttribute("data-open", this.open);
    return html`
      <button type="button" class="key closer" aria-expanded=${String(this.open)} @click=${() => this.#turn()}>Closer</button>
      <div class="cuts" role="group" aria-label="Cut open">
        ${CUTS.map(
          ([name = "", label]) => html`<button type="button" class="key" aria-pressed=${String(cut === name)} @click=${() => this.#tell("cut-open", { cut: name, share })}>
            ${label}
          </button>`,
        )}
        <button type="button" class="key" aria-pressed=${String(measuring)} @click=${() => this.#tell("measure", !measuring)}>Measure</button>
      </div>
      ${cut
        ? html`<label class="through">Where
            <input type="range" min="0" max="100" .value=${String(Math.round(share * 100))} @input=${(/** @type {Event} */ event) => this.#slide(event, cut)} />
          </label>`
        : nothing}
      ${measuring || measured
        ? html`<p class="measured" role="status">
            ${measured ? html`<b>${measured.words}</b> ${measured.steps.map(([name, size]) => html`<span>${name} ${size}</span>`)}` : `Tap ${state.picked.length ? "the second edge" : "an edge, then another"}.`}
          </p>`
        : nothing}
    `;
  }

  /** Put away, it leaves the piece whole and nothing to be picked. */
  #turn() {
    this.open = !this.open;
    if (this.open || !this.state) return;
    if (this.state.cut) this.#tell("cut-open", { cut: "", share: this.state.share });
    if (this.state.measuring || this.state.measured) this.#tell("measure", false);
  }

  /** @param {Event} event @param {string} cut */
  #slide(event, cut) {
    this.#tell("cut-open", { cut, share: /** @type {HTMLInputElement} */ (event.target).valueAsNumber / 100 });
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}
