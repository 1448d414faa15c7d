/** The few figures that matter most, under the title, each leading to its chapter; their places are kept free until they are known. */

import { OVERVIEW } from "../lib/chapters.js";
import { h, lay, layAlike } from "./build.js";

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

/** Characters of a figure that stands in a line of its own: sizes in inches, and in both units. */
const LONG = 22;

export class GlanceFacts extends HTMLElement {
  /** @type {State["plan"]} */
  #plan = null;
  /** Shop and room of a piece that is kept stand below, to be chosen. */
  #kept = false;
  #facts = h("dl", { class: "facts" });
  #note = h("p", { class: "note" });

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
    layAlike(
      this.#facts,
      facts.map(([label, value]) => this.#fact(label, value)),
    );
    this.#note.textContent = lines.join(". ");
    lay(this, this.#kept ? [this.#facts] : [this.#facts, this.#note]);
  }

  /** @param {string} label @param {string} value */
  #fact(label, value) {
    const place = label === "Size" ? (value.length > LONG ? "first long" : "first") : "";
    return h("div", place ? { class: place } : {}, h("dt", {}, label), h("dd", {}, this.#leading(label, value)));
  }

  /** A size is not parted at the end of a line; one in both units is, between the two. @param {string} label @param {string} value */
  #leading(label, value) {
    const [, figure = value, inside, behind] = /^(.+?)(?: \((.+)\)|, (.+))?$/.exec(value) ?? [];
    const more = inside ?? behind;
    const words = label === "Size" ? value.split(/ (?=\[)/).flatMap((whole, at) => [at ? " " : "", h("span", { class: "whole" }, whole)]) : [h("span", { class: "whole" }, figure), ...(more ? [h("small", {}, more)] : [])];
    const chapter = CHAPTERS[label];
    return h(chapter && this.#plan ? "a" : "span", chapter && this.#plan ? { href: `#${chapter}` } : {}, ...words);
  }
}
