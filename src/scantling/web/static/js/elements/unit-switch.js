/**
 * Millimeters, inches, or both beside each other, for everything on the page: a key each, and where there is no room
 * for three keys, a list; which of them is seen, the style says.
 *
 * @fires show-units detail: `mm`, `in` or `both`
 */

import { h } from "./build.js";

/** @typedef {import("../types.js").State} State */

/** What each key shows, with the words it is called by. */
const KEYS = /** @type {const} */ ([
  ["mm", "mm", "Millimeters, mm"],
  ["in", "in", "Inches, in"],
  ["both", "Both", "Both units"],
]);

export class UnitSwitch extends HTMLElement {
  #keys = KEYS.map(([units, word, name]) =>
    h("button", { type: "button", class: "key quiet", "data-units": units, "aria-label": name, onclick: () => this.#tell(units) }, word),
  );

  #list = h(
    "select",
    { "aria-label": "Show lengths in", onchange: () => this.#tell(/** @type {HTMLSelectElement} */ (this.#list).value) },
    ...KEYS.map(([units, word]) => h("option", { value: units }, word)),
  );

  connectedCallback() {
    this.hidden = true;
    this.setAttribute("role", "group");
    this.setAttribute("aria-label", "Show lengths in");
    this.append(...this.#keys, this.#list);
  }

  /** @param {string} units */
  #tell(units) {
    this.dispatchEvent(new CustomEvent("show-units", { detail: units, bubbles: true }));
  }

  /** @param {State} state */
  set state({ shape }) {
    this.hidden = !shape;
    if (shape) this.shown = shape;
  }

  /** @param {{units: string, bothUnits: boolean}} view what is on show */
  set shown({ units, bothUnits }) {
    this.hidden = false;
    const shown = bothUnits ? "both" : units;
    for (const key of this.#keys) key.setAttribute("aria-pressed", String(key.dataset["units"] === shown));
    /** @type {HTMLSelectElement} */ (this.#list).value = shown;
  }
}
