/**
 * Millimeters or inches, for everything on the page.
 *
 * @fires show-units detail: `mm` or `in`
 */

import { h } from "./build.js";

/** @typedef {import("../types.js").State} State */

export class UnitSwitch extends HTMLElement {
  #key = h("button", { type: "button", class: "key quiet" });
  #other = "in";

  connectedCallback() {
    this.hidden = true;
    this.#key.addEventListener("click", () => {
      this.dispatchEvent(new CustomEvent("show-units", { detail: this.#other, bubbles: true }));
    });
    this.append(this.#key);
  }

  /** @param {State} state */
  set state({ shape }) {
    this.hidden = !shape;
    if (!shape) return;
    this.#other = shape.units === "in" ? "mm" : "in";
    this.#key.textContent = this.#other === "in" ? "In inches" : "In millimeters";
  }
}
