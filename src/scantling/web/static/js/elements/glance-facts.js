/** The few figures that matter most, under the title, each leading to its chapter; their places are kept free until they are known. */

import { OVERVIEW } from "../lib/chapters.js";
import { h } from "./build.js";

/** @typedef {import("../types.js").State} State */

/** Where a figure is told in full. @type {Readonly<Record<string, string>>} */
const CHAPTERS = Object.freeze({
  Size: "sizes",
  Weight: "moving",
  "Hands on": "order",
  "From first to last day": "order",
  Price: "money",
  "Serious findings": "faults",
});

export class GlanceFacts extends HTMLElement {
  /** @type {State["plan"]} */
  #plan = null;
  /** Shop and room of a piece that is kept stand below, to be chosen. */
  #kept = false;

  connectedCallback() {
    this.#lay(Object.keys(CHAPTERS).map((label) => [label, "–"]), []);
  }

  /** @param {State} state */
  set state({ plan, faults, kept }) {
    if (!plan && faults.length) this.hidden = true;
    if (!plan || (plan === this.#plan && Boolean(kept) === this.#kept)) return;
    this.#plan = plan;
    this.#kept = Boolean(kept);
    const blocks = plan.sheets.find((sheet) => sheet.id === OVERVIEW)?.blocks ?? [];
    const facts = blocks.flatMap((block) => (block.kind === "facts" ? block.items : []));
    this.#lay(facts, blocks.flatMap((block) => (block.kind === "words" ? block.lines : [])));
  }

  /** @param {Array<[string, string]>} facts @param {string[]} lines */
  #lay(facts, lines) {
    this.hidden = facts.length === 0;
    this.replaceChildren(
      h("dl", { class: "facts" }, ...facts.map(([label, value]) => h("div", {}, h("dt", {}, label), h("dd", {}, this.#leading(label, value))))),
      this.#kept ? "" : h("p", { class: "note" }, lines.join(". ")),
    );
  }

  /** @param {string} label @param {string} value */
  #leading(label, value) {
    const chapter = CHAPTERS[label];
    return chapter && this.#plan ? h("a", { href: `#${chapter}` }, value) : value;
  }
}
