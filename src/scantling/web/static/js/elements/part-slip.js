/**
 * The slip of one part: its sizes, and everything in the sheets that concerns it.
 *
 * @fires choose-part detail: empty, to put the slip away
 * @fires show-row    detail: {sheet, block, row}
 *
 * Keyboard: Escape puts it away.
 */

import { concerning } from "../lib/concerning.js";
import { WEIGHTS } from "../lib/verdict.js";
import { h, lay } from "./build.js";
import { EntryForm } from "./entry-form.js";

/** @typedef {import("../types.js").State} State */
/** @typedef {import("../types.js").PartView} PartView */
/** @typedef {import("../types.js").PlanView} PlanView */
/** @typedef {import("../lib/concerning.js").Mention} Mention */

export class PartSlip extends HTMLElement {
  #shown = "";
  #name = h("h2");
  #wood = h("p", { class: "wood" });
  #away = h("button", { type: "button", class: "key", onclick: () => this.#tell("choose-part", "") }, "Put away");
  #bar = h("div", { class: "bar" }, h("div", {}, this.#name, this.#wood), this.#away);
  #entries = new EntryForm();
  /** @type {State["plan"]} */
  #plan = null;
  /** @type {State["shape"]} */
  #shape = null;

  connectedCallback() {
    this.setAttribute("role", "region");
    this.setAttribute("aria-label", "The part chosen");
    this.addEventListener("keydown", (event) => {
      if (event.key === "Escape") this.#tell("choose-part", "");
    });
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }

  /** @param {State} state */
  set state(state) {
    const same = state.chosen === this.#shown;
    this.#entries.chosen = state.chosen;
    this.#entries.version = state.kept?.version ?? 0;
    this.#entries.parts = state.shape?.parts ?? [];
    if (same && state.plan === this.#plan && state.shape === this.#shape) return;
    [this.#shown, this.#plan, this.#shape] = [state.chosen, state.plan, state.shape];
    const part = state.shape?.parts.find((each) => each.name === state.chosen);
    this.hidden = !part;
    if (!part) return;
    lay(this, this.#sheet(part, state.plan)); // what is being written in the slip goes on
    if (!same) this.scrollTop = 0;
  }

  /** @param {PartView} part @param {PlanView | null} plan @returns {HTMLElement[]} */
  #sheet(part, plan) {
    [this.#name.textContent, this.#wood.textContent] = [part.label, part.species];
    const sizes = part.sizes.map(([label, value]) => h("div", {}, h("dt", {}, label), h("dd", {}, value)));
    return [
      this.#bar,
      h("dl", { class: "sizes" }, ...sizes),
      this.#entries,
      ...(plan ? this.#findings(part, plan) : []),
      ...(plan ? this.#mentions(concerning(plan.sheets, part.name)) : []),
    ];
  }

  /** @param {PartView} part @param {PlanView} plan */
  #findings(part, plan) {
    const found = plan.findings.filter((each) => each.parts.includes(part.name));
    if (!found.length) return [];
    const lines = found.map((each) => h("li", {}, h("strong", {}, `${WEIGHTS[each.severity] ?? ""}: `), each.message));
    return [h("h3", {}, "What the rules found"), h("ul", {}, ...lines)];
  }

  /** @param {Mention[]} mentions @returns {HTMLElement[]} */
  #mentions(mentions) {
    /** @type {HTMLElement[]} */
    const shown = [];
    let [heading, list] = ["", h("ul", {})];
    for (const mention of mentions) {
      const title = mention.table ? `${mention.title}: ${mention.table}` : mention.title;
      if (title !== heading) {
        [heading, list] = [title, h("ul", {})];
        shown.push(h("h3", {}, this.#link(mention, title)), list);
      }
      const cells = mention.cells.map(([label, cell]) =>
        h("span", { class: "cell" }, ...(label ? [h("span", {}, `${label} `)] : []), cell),
      );
      list.append(h("li", {}, ...cells.flatMap((cell) => [cell, " "])));
    }
    return shown;
  }

  /** @param {Mention} mention @param {string} title */
  #link(mention, title) {
    const { sheet, block, row } = mention;
    const go = (/** @type {Event} */ event) => {
      event.preventDefault();
      this.#tell("show-row", { sheet, block, row });
    };
    return h("a", { href: `#${sheet}`, onclick: go }, title);
  }
}
