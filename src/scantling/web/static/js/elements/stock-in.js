/**
 * Boards that come in: one as it is measured, or a rack file.
 *
 * @fires stock-act detail: {act, body, done} `done` is called once it is kept
 */

import { LitElement, html } from "lit";

/** @typedef {import("../types.js").StackBody} StackBody */

const FIELDS = Object.freeze(/** @type {const} */ ([
  ["name", "Chalked", "A1", true],
  ["species", "Wood", "", true],
  ["thickness", "Thickness", "5/4", true],
  ["length", "Length", "", true],
  ["width", "Width", "", true],
  ["moisture", "Moisture, %", "", false],
  ["price", "Price of the board", "", false],
]));

export class StockIn extends LitElement {
  /** @override */
  static properties = { units: { attribute: false }, woods: { attribute: false } };

  constructor() {
    super();
    this.units = "mm";
    /** @type {StackBody[]} */
    this.woods = [];
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const last = this.woods[0];
    return html`
      <h2 class="begin">Take boards in</h2>
      <form class="board-in" @submit=${(/** @type {SubmitEvent} */ event) => this.#send(event)} autocomplete="off">
        ${FIELDS.map(
          ([name, label, hint, needed]) => html`<label>
            ${label}
            <input
              name=${name}
              maxlength="60"
              ?required=${needed}
              placeholder=${hint || (name === "length" || name === "width" ? (this.units === "in" ? "in" : "mm") : (name === "species" && last?.species) || "")}
            />
          </label>`,
        )}
        <label>From <input name="party" maxlength="200" /></label>
        <button class="key main">Take it in</button>
      </form>
      <label class="key">From a rack file <input type="file" accept=".csv,.yaml,.yml" @change=${(/** @type {Event} */ event) => this.#file(event)} /></label>
    `;
  }

  /** @param {SubmitEvent} event */
  #send(event) {
    event.preventDefault();
    const form = /** @type {HTMLFormElement} */ (event.target);
    const { party, ...row } = Object.fromEntries([...new FormData(form)].map(([name, value]) => [name, String(value).trim()]));
    const written = Object.fromEntries(Object.entries(row).filter(([, value]) => value));
    const emptied = () => ["name", "length", "width"].forEach((name) => empty(form, name, row[name] ?? ""));
    this.#tell({ rows: [written], unit: this.units, party }, emptied);
  }

  /** @param {Event} event */
  async #file(event) {
    const field = /** @type {HTMLInputElement} */ (event.target);
    const [file] = field.files ?? [];
    if (!file) return;
    const text = await file.text();
    field.value = "";
    this.#tell({ rack: { name: file.name, text } }, () => {});
  }

  /** @param {Record<string, unknown>} body @param {() => void} done */
  #tell(body, done) {
    this.dispatchEvent(new CustomEvent("stock-act", { detail: { act: "add", body, done }, bubbles: true }));
  }
}

/** The next board is of the same wood: what is its own is emptied, but where more was written since. @param {HTMLFormElement} form @param {string} name @param {string} sent */
function empty(form, name, sent) {
  const field = form.elements.namedItem(name);
  if (field instanceof HTMLInputElement && field.value.trim() === sent) field.value = "";
}
