/**
 * All sizes that may be changed, and what is wrong with what was asked.
 *
 * @fires change-size detail: {name, text, written}, see size-field.js
 * @fires reset-sizes
 * @fires keep-sizes
 * @fires copy-link
 * @attr data-nothing while there is no shape to change
 */

import { numberOf } from "../api/pieces.js";
import { standing, told } from "../lib/faults.js";
import { sizesOf, unitWord } from "../lib/given.js";
import { chapter, h } from "./build.js";
import { fold } from "./fold.js";
import { SizeField } from "./size-field.js";
import { WoodChoice } from "./wood-choice.js";

/** @typedef {import("../types.js").State} State */
/** @typedef {import("../types.js").FaultView} FaultView */

/** Sizes that stand open: those a piece file names first. The rest is folded, if there is more than one. */
const FIRST = 4;

export class SizeForm extends HTMLElement {
  /** @type {Map<string, SizeField>} */
  #fields = new Map();
  #rows = h("div", { class: "rows" });
  /** @type {HTMLDetailsElement | null} */
  #more = null;
  #others = h("div", { "aria-live": "assertive" });
  #bare = h("span");
  #wood = new WoodChoice();
  #said = h("p", { class: "said", role: "status", tabindex: "-1" });
  /** Where the sizes are that were tried, as well as in the head: on a phone that is far above. */
  #keep = h("button", { type: "button", class: "key main", hidden: true }, "Keep these sizes");
  #reset = h("button", { type: "button", class: "key" }, "All as drawn");

  connectedCallback() {
    this.#keep.addEventListener("click", () => this.#tell("keep-sizes"));
    this.#reset.addEventListener("click", () => this.#tell("reset-sizes"));
    const copy = h("button", { type: "button", class: "key quiet", onclick: () => this.#tell("copy-link") }, "Copy a link to these sizes");
    this.append(
      chapter(
        1,
        "sizes",
        "Sizes and wood",
        h("p", { class: "lead" }, "Change one and everything below follows. Write it as you say it: 730\u00a0mm, 28\u00a03/4\u00a0in. ", this.#bare),
        this.#others,
        this.#rows,
        this.#wood,
        h("div", { class: "doing" }, this.#keep, this.#reset, copy, this.#said),
      ),
    );
    for (let i = 0; i < 4; i += 1) this.#rows.append(h("div", { class: "bones" }));
  }

  /** @param {string} event */
  #tell(event) {
    this.dispatchEvent(new CustomEvent(event, { bubbles: true }));
  }

  /** @param {State} state */
  set state(state) {
    const tried = Object.keys(sizesOf(state.given)).length > 0;
    this.#reset.disabled = !tried;
    this.#keep.hidden = !state.kept;
    this.#keep.disabled = !tried || state.busy || state.faults.length > 0;
    this.#bare.textContent = state.shape ? `A bare number is ${unitWord(state.shape.units)}.` : "";
    const parameters = state.shape?.parameters ?? [];
    if (state.shape) this.#match(parameters);
    for (const parameter of parameters) {
      const fault = state.faults.find((each) => each.field === parameter.name);
      this.#fields.get(parameter.name)?.show(parameter, state.given[parameter.name], { fault, stale: state.faults.length > 0 });
    }
    this.#wood.version = state.kept?.version ?? 0;
    this.#open();
    this.#tellOthers(state, new Set(parameters.map((each) => each.name)));
    this.toggleAttribute("data-nothing", !state.shape && state.faults.length > 0);
  }

  /** @param {readonly import("../types.js").ParameterView[]} parameters */
  #match(parameters) {
    const names = parameters.map((each) => each.name);
    if (this.#fields.size && names.every((name) => this.#fields.has(name)) && names.length === this.#fields.size) return;
    this.#fields = new Map(names.map((name) => [name, new SizeField()]));
    const none = h("p", { class: "blank" }, "This piece has no sizes to change. Add parameters to its file and they appear here.");
    const fields = [...this.#fields.values()];
    const first = fields.length > FIRST + 1 ? FIRST : fields.length;
    this.#rows.replaceChildren(...(names.length ? fields.slice(0, first) : [none]));
    this.#more = null;
    if (first === fields.length) return;
    const labels = parameters.slice(first).map((each) => each.label);
    this.#more = fold(`${labels.length} more`, labels.join(", "), ...fields.slice(first));
    this.#rows.append(this.#more);
  }

  /** A size that was changed, or has a fault, is never folded away. */
  #open() {
    if (this.#more?.querySelector("[data-changed], [data-faulty]")) this.#more.open = true;
  }

  /** Faults that belong to no field of the form. @param {State} state @param {Set<string>} fields */
  #tellOthers(state, fields) {
    const others = state.faults.filter((each) => !fields.has(each.field));
    if (!others.length) {
      this.#others.replaceChildren();
      return;
    }
    const still = state.plan ? "What is shown is the last plan that works." : "There is no plan to show until this is mended.";
    const number = numberOf(location.pathname);
    const inText = number > 0 && others.some((each) => each.line);
    const mend = h("p", {}, h("a", { class: "key", href: `/pieces/${number}/write` }, "Mend it in its text"));
    this.#others.replaceChildren(
      h("div", { class: "notice bad" }, h("p", {}, still), ...others.map((fault) => this.#line(fault)), ...(inText ? [mend] : [])),
    );
  }

  /** @param {FaultView} fault */
  #line(fault) {
    const [place, words] = [standing(fault), told(fault)];
    return place ? h("p", {}, h("strong", {}, place), words.slice(place.length)) : h("p", {}, words);
  }

  /** Say something small beside the keys. @param {string} words */
  say(words) {
    this.#said.textContent = words;
    if (document.activeElement === document.body) this.#said.focus({ preventScroll: true }); // its key is off now
  }
}
