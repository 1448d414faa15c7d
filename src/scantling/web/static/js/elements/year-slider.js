/**
 * The year: a month to choose, and how much larger the movement of the wood is drawn.
 *
 * @fires choose-month detail: place in the year, 0 as built
 * @fires draw-larger  detail: 1, 5, 10 or 20
 *
 * Keyboard: the arrow keys, Home and End of the slider.
 */

import { drawnAs } from "../lib/caption.js";
import { h } from "./build.js";

/** @typedef {import("../types.js").State} State */

const LARGER = [1, 5, 10, 20];

export class YearSlider extends HTMLElement {
  #slider = h("input", { type: "range", min: "0", max: "12", step: "1", value: "0", "aria-label": "Month of the year" });
  #marks = h("ol", { class: "months", "aria-hidden": "true" });
  #month = h("p", { class: "month" });
  #told = h("p", { class: "told", "aria-live": "polite" });
  #tight = h("p", { class: "tight" });
  #how = h("p", { class: "how" });
  #keys = LARGER.map((times) =>
    h(
      "button",
      {
        type: "button",
        class: "key",
        "aria-label": `×${times}: ${drawnAs(times)}`,
        "aria-pressed": "false",
        onclick: () => this.#tell("draw-larger", times),
      },
      `×${times}`,
    ),
  );
  /** @type {State["plan"]} */
  #plan = null;

  connectedCallback() {
    this.hidden = true;
    this.#slider.addEventListener("input", () => this.#tell("choose-month", this.#slider.valueAsNumber));
    this.replaceChildren(
      h("div", { class: "line" }, this.#month, h("div", { class: "track" }, this.#slider, this.#marks)),
      h("div", { class: "words" }, this.#told, this.#tight),
      h("div", { class: "larger", role: "group", "aria-label": "How the movement is drawn" }, ...this.#keys, this.#how),
    );
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }

  /** @param {State} state */
  set state({ plan, month, larger }) {
    this.hidden = !plan?.year.parts.length;
    if (!plan || this.hidden) return;
    if (plan !== this.#plan) this.#mark(plan.year.months);
    this.#plan = plan;
    const shown = plan.year.months[month] ?? plan.year.months[0];
    if (!shown) return;
    this.#slider.value = String(month);
    this.#slider.setAttribute("aria-valuetext", shown.label);
    this.#month.textContent = shown.label;
    this.#told.textContent = shown.words;
    this.#tight.textContent = shown.tight;
    this.#tight.classList.toggle("bad", shown.binds);
    [...this.#marks.children].forEach((mark, i) => mark.classList.toggle("now", i === month));
    this.#keys.forEach((key, i) => key.setAttribute("aria-pressed", String(LARGER[i] === larger)));
    this.#how.textContent = drawnAs(larger).replace("m", "M");
  }

  /** @param {readonly import("../types.js").MonthView[]} months */
  #mark(months) {
    const labels = months.map(({ label }) => label);
    this.#month.dataset["widest"] = labels.reduce((most, each) => (each.length > most.length ? each : most), "");
    this.#marks.replaceChildren(
      ...months.map(({ short, goesIn }, i) => h("li", goesIn ? { class: "in" } : {}, i ? short.slice(0, 1) : short)),
    );
  }
}
