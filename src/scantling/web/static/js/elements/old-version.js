/**
 * Says that a version is not the piece as it is now, and brings it back.
 *
 * @attr version its number
 */

import { askVersions, openPiece, pieceOf, restoreVersion } from "../api/pieces.js";
import { Refused } from "../api/plan.js";
import { ago } from "../lib/ago.js";
import { h } from "./build.js";

export class OldVersion extends HTMLElement {
  #words = h("p");
  #said = h("p", { role: "alert" });

  connectedCallback() {
    const number = pieceOf(location.pathname);
    const version = Number(this.getAttribute("version"));
    const back = h("button", { type: "button", class: "key main", onclick: () => void this.#bring(number, version) }, "Bring it back");
    const now = h("a", { class: "key", href: `/pieces/${number}/` }, "The piece as it is now");
    this.append(h("div", { class: "notice" }, this.#words, h("div", { class: "steps" }, back, now), this.#said));
    this.#words.textContent = `This is version ${version}, to look at.`;
    void this.#tell(number, version, back);
  }

  /** @param {number} number @param {number} version @param {HTMLElement} back the key that brings it back */
  async #tell(number, version, back) {
    const versions = await askVersions(number);
    const found = versions.find((each) => each.number === version);
    const current = versions.find((each) => each.current)?.number;
    if (!found || !current) return;
    back.hidden = current === version; // it is there already
    const which = current === version ? "the current one" : `not the current one, which is ${current}`;
    this.#words.textContent = `This is version ${version}, ${which}. ${found.why}, ${ago(found.madeAt, Date.now())}.`;
  }

  /** @param {number} number @param {number} version */
  async #bring(number, version) {
    try {
      const { piece } = await openPiece(number);
      await restoreVersion(number, version, piece.version);
      location.assign(`/pieces/${number}/`);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.#said.textContent = error.message;
    }
  }
}
