/**
 * The controls under the plate: pull apart, see through, where to stand, which part.
 *
 * @fires pull-apart  detail: 0..1
 * @fires see-through detail: boolean
 * @fires stand       detail: name of a place to stand
 * @fires choose-part detail: name, or empty
 * @attr data-nothing  until there is something to look at
 */

import { caption } from "../lib/caption.js";
import { h } from "./build.js";

/** @typedef {import("../types.js").State} State */

const VIEWS = [
  ["corner", "Corner"],
  ["front", "Front"],
  ["side", "Side"],
  ["above", "Above"],
];

export class PlateControls extends HTMLElement {
  #pull = h("input", { type: "range", min: "0", max: "100", step: "1", value: "0", id: "pull" });
  #through = h("button", { type: "button", class: "key", "aria-pressed": "false" }, "See through");
  #chooser = h("select", { "aria-label": "Show a part" });
  #caption = h("p", { class: "caption", "aria-live": "polite" });
  /** @type {State["shape"]} */
  #shape = null;

  connectedCallback() {
    this.#pull.addEventListener("input", () => this.#tell("pull-apart", this.#pull.valueAsNumber / 100));
    this.#through.addEventListener("click", () => {
      this.#tell("see-through", this.#through.getAttribute("aria-pressed") !== "true");
    });
    this.#chooser.addEventListener("change", () => this.#tell("choose-part", this.#chooser.value));
    const views = VIEWS.map(([name = "", label = ""]) =>
      h("button", { type: "button", class: "key", onclick: () => this.#tell("stand", name) }, label),
    );
    this.append(
      this.#caption,
      h("div", { class: "pull" }, h("label", { for: "pull" }, "Pull apart"), this.#pull),
      this.#through,
      h("div", { class: "views", role: "group", "aria-label": "Look from" }, ...views),
      h("div", { class: "chooser" }, this.#chooser),
    );
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }

  /** @param {State} state */
  set state(state) {
    this.toggleAttribute("data-nothing", !state.shape);
    if (state.shape !== this.#shape) this.#list(state);
    this.#shape = state.shape;
    this.#pull.value = String(Math.round(state.apart * 100));
    this.#through.setAttribute("aria-pressed", String(state.seeThrough));
    this.#chooser.value = state.chosen;
    const chosen = state.shape?.parts.find((part) => part.name === state.chosen)?.label ?? "";
    this.#caption.textContent = state.shape ? caption({ ...state, chosen, month: monthOf(state) }) : "";
  }

  /** @param {State} state */
  #list(state) {
    const parts = state.shape?.parts ?? [];
    this.#chooser.replaceChildren(
      h("option", { value: "" }, "Show a part…"),
      ...parts.map((part) => h("option", { value: part.name }, part.label)),
    );
  }
}

/** The month shown, or empty as built. @param {State} state */
function monthOf(state) {
  return state.month ? (state.plan?.year.months[state.month]?.label ?? "") : "";
}
