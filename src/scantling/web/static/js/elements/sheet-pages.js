/**
 * The sheets of the plan, a chapter each. A sheet that did not change keeps its elements, and so its place.
 *
 * @fires point-parts detail: names in the row under the mouse or with the focus
 * @fires choose-part detail: first name of the row chosen
 */

import { sameSheet } from "../lib/changing.js";
import { FAULTS, chaptersOf } from "../lib/chapters.js";
import { WEIGHTS } from "../lib/verdict.js";
import { chapter, h } from "./build.js";
import { blockElement } from "./sheet-block.js";

/** @typedef {import("../types.js").State} State */
/** @typedef {import("../types.js").Sheet} Sheet */
/** @typedef {import("../types.js").FindingView} FindingView */

const FIRST = 2;

export class SheetPages extends HTMLElement {
  /** @type {State | null} */
  #state = null;
  /** @type {Map<string, {sheet: Sheet, element: HTMLElement}>} */
  #kept = new Map();

  connectedCallback() {
    this.append(...[1, 2, 3].map(() => h("div", { class: "bones" })));
    for (const [on, off] of /** @type {const} */ ([["pointerover", "pointerout"], ["focusin", "focusout"]])) {
      this.addEventListener(on, (event) => this.#point(partsAt(event)));
      this.addEventListener(off, (event) => partsAt(event).length && this.#point([]));
    }
    this.addEventListener("click", (event) => {
      const [first] = partsAt(event);
      if (first && !getSelection()?.toString()) this.#tell("choose-part", first);
    });
  }

  /** @param {string[]} parts */
  #point(parts) {
    if (parts.join(" ") !== this.#state?.pointed.join(" ")) this.#tell("point-parts", parts);
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }

  /** @param {State} state */
  set state(state) {
    const before = this.#state;
    this.#state = state;
    if (state.plan !== before?.plan || (!state.plan && state.faults.length)) this.#lay(state);
    if (state.chosen !== before?.chosen || state.plan !== before?.plan) this.#mark(state.chosen);
  }

  /** @param {State} state */
  #lay({ plan }) {
    /** @type {Map<string, {sheet: Sheet, element: HTMLElement}>} */
    const kept = new Map();
    const laid = (plan ? chaptersOf(plan) : []).map((sheet, place) => {
      const before = this.#kept.get(sheet.id);
      const same = before && sameSheet(before.sheet, sheet);
      const element = same ? before.element : sheetElement(sheet, before?.sheet, FIRST + place, plan?.findings ?? []);
      if (same) for (const cell of element.querySelectorAll(".changed")) cell.classList.remove("changed");
      kept.set(sheet.id, { sheet, element });
      return element;
    });
    this.#kept = kept;
    if (laid.length === this.children.length && laid.every((each, i) => each === this.children[i])) return;
    this.replaceChildren(...laid);
  }

  /** Tint the rows about the part chosen. @param {string} chosen */
  #mark(chosen) {
    for (const row of this.querySelectorAll(".row.points")) {
      const parts = /** @type {HTMLElement} */ (row).dataset["parts"]?.split(" ") ?? [];
      row.classList.toggle("about-part", chosen !== "" && parts.includes(chosen));
    }
  }

  /** Bring a row into sight. @param {{sheet: string, block: number, row: number}} where */
  show({ sheet, block, row }) {
    const blocks = this.#kept.get(sheet)?.element.querySelectorAll(":scope > .block");
    const line = blocks?.[block]?.querySelector(`.row[data-row="${row}"]`);
    line?.scrollIntoView({ block: "center" });
    line?.querySelector("button")?.focus({ preventScroll: true });
  }
}

/** @param {Event} event @returns {string[]} */
function partsAt(event) {
  const row = /** @type {Element} */ (event.target).closest("[data-parts]");
  return row instanceof HTMLElement ? (row.dataset["parts"]?.split(" ") ?? []) : [];
}

/** @param {Sheet} sheet @param {Sheet | undefined} before @param {number} number @param {readonly FindingView[]} findings */
function sheetElement(sheet, before, number, findings) {
  const lead = sheet.lead ? [h("p", { class: "lead" }, sheet.lead)] : [];
  const told = sheet.id === FAULTS;
  const blocks = told ? findingElements(findings) : sheet.blocks.map((block, i) => blockElement(block, before?.blocks[i]));
  const made = chapter(number, sheet.id, sheet.title, ...lead, ...blocks);
  made.classList.add("long");
  return made;
}

/** @param {readonly FindingView[]} findings @returns {HTMLElement[]} */
function findingElements(findings) {
  if (!findings.length) return [h("p", { class: "blank" }, "The rules found nothing to settle.")];
  return findings.map((found) => {
    const line = h(
      "div",
      { class: `finding ${found.severity}` },
      h("p", { class: "weight" }, WEIGHTS[found.severity] ?? ""),
      h("p", { class: "message" }, found.message),
      ...(found.advice ? [h("p", { class: "advice" }, found.advice)] : []),
      h("p", { class: "code place" }, [found.where, found.code, found.source].filter(Boolean).join(" · ")),
    );
    if (found.parts.length) line.dataset["parts"] = found.parts.join(" ");
    return line;
  });
}
