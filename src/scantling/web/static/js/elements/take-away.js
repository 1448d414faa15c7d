/** Paper and files to take away, of the sizes now on show. */

import { fileAddress } from "../api/plan.js";
import { chapter, h } from "./build.js";

/** @typedef {import("../types.js").State} State */

const FILES = [
  ["step", "STEP", "exact solids, for other programs"],
  ["glb", "GLB", "the 3D picture"],
  ["csv", "CSV", "the part list, for a spreadsheet"],
];

export class TakeAway extends HTMLElement {
  #number = 0;
  #address = "";

  /** @param {State} state */
  set state(state) {
    if (!state.plan) return;
    const number = 2 + state.plan.sheets.length + (state.plan.sheets.some((sheet) => sheet.id === "findings") ? 0 : 1);
    const address = fileAddress("", state.planned);
    if (number === this.#number && address === this.#address) return;
    [this.#number, this.#address] = [number, address];
    const packet = (/** @type {string} */ paper) => fileAddress("/api/packet.pdf", state.planned, { paper });
    this.replaceChildren(
      chapter(
        number,
        "take-away",
        "Paper and files",
        h("p", { class: "lead" }, "All of these sizes as they are on this page now."),
        h(
          "div",
          { class: "group" },
          h("p", {}, "The packet to work from: drawings, tables, layouts, templates, steps."),
          h("div", { class: "ways" }, link(packet("a4"), "Packet on A4"), link(packet("letter"), "Packet on Letter")),
        ),
        h(
          "div",
          { class: "group" },
          h("p", {}, FILES.map(([, name, what]) => `${name}: ${what}`).join("; "), "."),
          h("div", { class: "ways" }, ...FILES.map(([kind, name]) => link(fileAddress(`/api/export/${kind}`, state.planned), name ?? ""))),
        ),
      ),
    );
  }
}

/** @param {string} href @param {string} words */
function link(href, words) {
  return h("a", { class: "key", href, download: true }, words);
}
