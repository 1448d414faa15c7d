/** What the rules found, summed up in a line under the title, each part a link to them. */

import { verdict } from "../lib/verdict.js";
import { h, layAlike } from "./build.js";

/** @typedef {import("../types.js").State} State */

export class VerdictLine extends HTMLElement {
  /** @type {State["plan"]} */
  #plan = null;

  connectedCallback() {
    this.setAttribute("role", "status");
  }

  /** @param {State} state */
  set state(state) {
    if (!state.plan && state.faults.length) {
      layAlike(this, [h("a", { class: "bad", href: "#sizes" }, "No plan yet: something is wrong with what was given")]);
      return;
    }
    if (state.faults.length) {
      this.#plan = null;
      const words = "Not planned: what was asked for cannot be so";
      layAlike(this, [h("a", { class: "bad", href: "#sizes" }, words), h("span", {}, "The last plan that works is shown.")]);
      return;
    }
    if (state.plan === this.#plan) return;
    this.#plan = state.plan;
    const told = state.plan ? verdict(state.plan.findings) : [];
    layAlike(
      this,
      told.map(({ tone, text }) =>
        tone === "good" ? h("span", { class: tone }, text) : h("a", { class: tone, href: "#faults" }, text),
      ),
    );
  }
}
