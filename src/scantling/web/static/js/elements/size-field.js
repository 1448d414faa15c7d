/**
 * One size that may be changed: a field to write in, keys and a slider to step with.
 *
 * @fires change-size detail: {name, text, written}; text empty for the value as drawn, written what it is then, where it is known
 * @attr data-changed while it differs from the file
 * @attr data-faulty  while what is written has a fault
 *
 * Come to, the whole of it is selected, so that what is typed stands in its place; a second tap or click sets the cursor.
 * Keyboard: Arrow up and down in the field step it; Enter takes it at once.
 */

import { stepped, written } from "../lib/stepping.js";
import { h } from "./build.js";

/** @typedef {import("../types.js").ParameterView} ParameterView */
/** @typedef {import("../types.js").FaultView} FaultView */

/** How long a size that was stepped to stands without an answer: then what was planned last does again. */
const STANDS_MS = 3000;

export class SizeField extends HTMLElement {
  /** @type {ParameterView | null} */
  #parameter = null;
  /** what was stepped to, until the plan has it: the next step goes on from there @type {{value: number, unit: string, at: number} | null} */
  #ahead = null;
  #text = h("input", { type: "text", autocomplete: "off", spellcheck: "false", inputmode: "text", enterkeyhint: "done" });
  #slider = h("input", { type: "range", tabindex: "-1" });
  #least = h("span");
  #most = h("span");
  #range = h("div", { class: "range" }, this.#least, this.#slider, this.#most);
  #fault = h("p", { class: "fault", role: "alert", hidden: true });
  #back = h("button", { type: "button", class: "back", hidden: true });
  /** @type {HTMLLabelElement} */
  #label = h("label");
  #about = h("p", { class: "about-it" });
  #other = h("p", { class: "other-unit", hidden: true });

  connectedCallback() {
    const step = (/** @type {number} */ way) => () => this.#step(way);
    const less = h("button", { type: "button", class: "key", tabindex: "-1", "aria-label": "Less", onclick: step(-1) }, "−");
    const more = h("button", { type: "button", class: "key", tabindex: "-1", "aria-label": "More", onclick: step(1) }, "+");
    this.#text.addEventListener("input", () => {
      this.#ahead = null;
      this.#tell(this.#text.value);
    });
    this.#selectWhenComeTo();
    this.#text.addEventListener("keydown", (event) => {
      if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
      event.preventDefault();
      this.#step(event.key === "ArrowUp" ? 1 : -1);
    });
    this.#back.addEventListener("click", () => {
      this.#ahead = null;
      if (this.#parameter) this.#text.value = this.#parameter.shownDefault;
      this.#tell("");
    });
    this.#slider.addEventListener("input", () => this.#take(this.#slider.valueAsNumber));
    this.append(
      h("div", { class: "words" }, h("div", { class: "named" }, this.#label, this.#back), this.#other, this.#about),
      h("div", { class: "dial" }, less, this.#text, more, this.#range, this.#fault),
    );
  }

  /** By a finger or the mouse as by the Tab key: a tap alone would set the cursor into the old figure. */
  #selectWhenComeTo() {
    let comes = false;
    this.#text.addEventListener("pointerdown", () => (comes = document.activeElement !== this.#text));
    this.#text.addEventListener("click", () => {
      if (comes && this.#text.selectionStart === this.#text.selectionEnd) this.#text.select();
      comes = false;
    });
  }

  /** @param {number} way */
  #step(way) {
    if (this.#parameter) this.#take(stepped(this.#parameter, way));
  }

  /** Take a number of the scale, shown at once; the plan follows. @param {number} value */
  #take(value) {
    if (!this.#parameter) return;
    this.#parameter = { ...this.#parameter, value };
    this.#ahead = { value, unit: this.#parameter.unit, at: performance.now() };
    this.#text.value = written(value, this.#parameter.unit);
    this.#slider.value = String(value);
    this.#other.hidden = true; // it follows with the shape
    this.#tell(value === this.#parameter.default ? "" : this.#text.value, this.#text.value);
  }

  /** @param {string} text @param {string} [written] */
  #tell(text, written = text) {
    const name = this.#parameter?.name;
    this.dispatchEvent(new CustomEvent("change-size", { detail: { name, text, written }, bubbles: true }));
  }

  /**
   * @param {ParameterView} parameter as last planned
   * @param {string | undefined} asked what is asked for, if it is not as drawn
   * @param {{fault: FaultView | undefined, stale: boolean}} how what is wrong with it; whether anything is wrong anywhere, so that
   *   the parameter is not yet as asked
   */
  show(parameter, asked, { fault, stale }) {
    const id = `size-${parameter.name}`;
    const ahead = this.#isAhead(parameter, stale);
    this.#parameter = ahead ? { ...parameter, value: ahead.value } : parameter;
    Object.assign(this.#text, { id });
    this.#label.htmlFor = id;
    this.#label.textContent = parameter.label;
    this.#about.textContent = parameter.about;
    this.#other.textContent = `[${parameter.shownOther}]`;
    this.#other.hidden = !parameter.shownOther || ahead !== null;
    if (!ahead && document.activeElement !== this.#text) this.#text.value = stale ? (asked ?? parameter.shown) : parameter.shown;
    this.#text.setAttribute("aria-describedby", `${id}-fault`);
    this.#text.setAttribute("aria-invalid", String(Boolean(fault)));
    this.#fault.id = `${id}-fault`;
    this.toggleAttribute("data-changed", asked !== undefined);
    this.toggleAttribute("data-faulty", Boolean(fault));
    this.#scale(this.#parameter);
    // the fault stands where the slider stood, so that nothing below moves
    this.#range.hidden = Boolean(fault);
    this.#fault.hidden = !fault;
    this.#fault.textContent = fault ? told(parameter, fault) : "";
    this.#back.hidden = asked === undefined;
    this.#back.textContent = `Back to ${parameter.shownDefault}`;
  }

  /** What was stepped to, while it is not yet planned and nothing is wrong with it. @param {ParameterView} parameter @param {boolean} stale */
  #isAhead({ value, unit, step }, stale) {
    const ahead = this.#ahead;
    const came = ahead && Math.abs(value - ahead.value) < step / 2;
    if (!ahead || came || stale || unit !== ahead.unit || performance.now() - ahead.at > STANDS_MS) this.#ahead = null;
    return this.#ahead;
  }

  /** @param {ParameterView} parameter */
  #scale({ label, least, most, step, value, shownLeast, shownMost }) {
    [this.#least.textContent, this.#most.textContent] = [shownLeast, shownMost];
    this.#slider.hidden = least === null || most === null;
    if (least === null || most === null || document.activeElement === this.#slider) return;
    Object.assign(this.#slider, { min: String(least), max: String(most), step: String(step), value: String(value) });
    this.#slider.setAttribute("aria-label", label);
  }
}

/** The rule and the way out; what the size is for stands beside it already. @param {ParameterView} parameter @param {FaultView} fault */
function told(parameter, fault) {
  const more = fault.remedy.replace(parameter.about, "").trim();
  const remedy = more ? ` ${more}` : "";
  const found = fault.code === "unknown_name" ? `, not ${fault.value}` : "";
  return `${parameter.label} ${fault.rule}${found}.${remedy}`;
}
