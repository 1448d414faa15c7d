/** The few figures that matter most, under the title; their places are kept free until they are known. */

import { OVERVIEW } from "../lib/chapters.js";
import { h } from "./build.js";

/** @typedef {import("../types.js").State} State */

const EXPECTED = ["Size", "Weight", "Hours", "Days", "Price", "Serious findings"];

export class GlanceFacts extends HTMLElement {
  /** @type {State["plan"]} */
  #plan = null;

  connectedCallback() {
    this.#lay(EXPECTED.map((label) => [label, "–"]), []);
  }

  /** @param {State} state */
  set state({ plan, faults }) {
    if (!plan && faults.length) this.hidden = true;
    if (!plan || plan === this.#plan) return;
    this.#plan = plan;
    const blocks = plan.sheets.find((sheet) => sheet.id === OVERVIEW)?.blocks ?? [];
    const facts = blocks.flatMap((block) => (block.kind === "facts" ? block.items : []));
    this.#lay(facts, blocks.flatMap((block) => (block.kind === "words" ? block.lines : [])));
  }

  /** @param {Array<[string, string]>} facts @param {string[]} lines */
  #lay(facts, lines) {
    this.hidden = facts.length === 0;
    this.replaceChildren(
      h("dl", { class: "facts" }, ...facts.map(([label, value]) => h("div", {}, h("dt", {}, label), h("dd", {}, value)))),
      h("p", { class: "note" }, lines.join(". ")),
    );
  }
}
