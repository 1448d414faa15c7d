/** How the piece fares in the room that is shown, or why that cannot be told. */

import { allTold } from "../lib/faults.js";
import { h } from "./build.js";

/** @typedef {import("../season-types.js").SeasonState} SeasonState */

export class VerdictRoom extends HTMLElement {
  #said = h("p", { role: "status" }, "Following the wood through three years ...");

  connectedCallback() {
    this.replaceChildren(this.#said);
  }

  /** @param {SeasonState} state */
  set state({ seasons, faults, busy }) {
    const refused = allTold(faults).join(" ");
    const said = refused || (busy || !seasons ? "Following the wood through three years ..." : seasons.verdict);
    if (said !== this.#said.textContent) this.#said.textContent = said; // written again, it would be read out again
    this.#said.className = refused || seasons?.binds ? "bad" : busy ? "" : "good";
  }
}
