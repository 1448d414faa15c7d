/** Paper and files to take away, of the sizes now on show. */

import { fileAddress } from "../api/plan.js";
import { chaptersOf } from "../lib/chapters.js";
import { chapter, h } from "./build.js";

/** @typedef {import("../types.js").State} State */

const FILES = [
  ["step", "STEP"],
  ["glb", "GLB"],
  ["dxf", "DXF of the worked faces"],
  ["xlsx", "XLSX of all tables"],
  ["csv", "CSV of the parts"],
  ["hardware-csv", "CSV of the hardware"],
  ["marks-csv", "CSV of the marking out"],
];

export class TakeAway extends HTMLElement {
  #number = 0;
  #address = "";

  /** @param {State} state */
  set state(state) {
    if (!state.plan) return;
    const number = 2 + chaptersOf(state.plan).length;
    const address = fileAddress("", state.planned);
    if (number === this.#number && address === this.#address) return;
    [this.#number, this.#address] = [number, address];
    const packet = (/** @type {string} */ paper) => fileAddress("api/packet.pdf", state.planned, { paper });
    this.replaceChildren(
      chapter(
        number,
        "take-away",
        "Paper and files",
        h("p", { class: "lead" }, "All of these sizes as they are on this page now."),
        h(
          "div",
          { class: "group" },
          h("p", {}, "The packet to work from: drawings, tables, layouts, templates, steps. Setting it takes a few seconds."),
          h("div", { class: "ways" }, view(packet("a4"), "Packet on A4"), view(packet("letter"), "Packet on Letter")),
        ),
        h(
          "div",
          { class: "group" },
          h("p", {}, "The plan for readers, as one file that opens anywhere without a network: the piece to turn, sizes, boards, steps, in millimeters and inches. No price of yours is in it."),
          h("div", { class: "ways" }, link(fileAddress("api/published.html", state.planned), "Plan to publish")),
        ),
        h(
          "div",
          { class: "group" },
          h("p", {}, "STEP holds exact solids for other programs, GLB the 3D picture, DXF the worked faces at full size, a layer for each kind of cut; XLSX and CSV are for a spreadsheet."),
          h("div", { class: "ways" }, ...FILES.map(([kind, name]) => link(fileAddress(`api/export/${kind}`, state.planned), name ?? ""))),
        ),
      ),
    );
  }
}

/** Opens beside the page, where it can be read or printed. @param {string} href @param {string} words */
function view(href, words) {
  return h("a", { class: "key", href, target: "_blank", rel: "noopener" }, words);
}

/** @param {string} href @param {string} words */
function link(href, words) {
  return h("a", { class: "key", href, download: true }, words);
}
