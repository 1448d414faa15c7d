/**
 * The sheets of the plan, a chapter each. A sheet that did not change keeps its elements, and so its place.
 * What matters most stands open, the rest is folded; folds once opened stay so while the page is in its tab.
 *
 * @fires point-parts detail: names in the row under the mouse or with the focus
 * @fires choose-part detail: first name of the row chosen
 */

import { sameSheet } from "../lib/changing.js";
import { FAULTS, SEASONS, chaptersOf } from "../lib/chapters.js";
import { isFolded, together } from "../lib/folding.js";
import { chapter, h, lay } from "./build.js";
import { numberOf } from "../api/pieces.js";
import { findingElements } from "./findings.js";
import { openAround, openToPrint } from "./fold.js";
import { readOpened, writeOpened } from "./opened.js";
import { blockElement, foldedElement, gatheredElement } from "./sheet-block.js";

/** @typedef {import("../types.js").State} State */
/** @typedef {import("../types.js").Sheet} Sheet */
/** @typedef {import("../types.js").Block} Block */
/** @typedef {import("../types.js").FindingView} FindingView */

const FIRST = 2;

export class SheetPages extends HTMLElement {
  /** @type {State | null} */
  #state = null;
  /** Sheets of the plan before this one, to tell what changed by. @type {Map<string, Sheet>} */
  #past = new Map();
  /** @type {Map<string, {sheet: Sheet, element: HTMLElement}>} */
  #kept = new Map();
  #opened = readOpened();
  /** What was mended last, told where its key was; and which place in the chapter that is. */
  #mended = h("p", { class: "mended", role: "status", tabindex: "-1" });
  #mendedAt = -1;

  connectedCallback() {
    openToPrint();
    this.addEventListener("toggle", (event) => this.#remember(/** @type {HTMLElement} */ (event.target)), true);
    this.append(...[1, 2, 3].map(() => h("div", { class: "bones" })));
    for (const [on, off] of /** @type {const} */ ([["pointerover", "pointerout"], ["focusin", "focusout"]])) {
      this.addEventListener(on, (event) => this.#point(partsAt(event)));
      this.addEventListener(off, (event) => partsAt(event).length && this.#point([]));
    }
    this.addEventListener("click", (event) => {
      if (/** @type {Element} */ (event.target).closest(".open-all")) return this.#openAll(event);
      if (/** @type {Element} */ (event.target).closest(".remedy")) return this.#mending(event); // its key does what it says, and no more
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

  /** Open all folds of a chapter, or fold them again. @param {Event} event */
  #openAll(event) {
    const folds = [.../** @type {Element} */ (event.target).closest(".chapter")?.querySelectorAll("details") ?? []];
    const open = folds.some((each) => !each.open);
    for (const each of folds) each.open = open;
  }

  /** @param {HTMLElement} toggled */
  #remember(toggled) {
    const name = toggled.dataset["fold"];
    if (!(toggled instanceof HTMLDetailsElement) || !name) return;
    if (toggled.open) this.#opened.add(name);
    else this.#opened.delete(name);
    writeOpened(this.#opened);
    const all = toggled.closest(".chapter")?.querySelector(".open-all");
    if (all) all.textContent = wordsOf([...(toggled.closest(".chapter")?.querySelectorAll("details") ?? [])]);
  }

  /** @param {Event} event */
  #mending(event) {
    const found = /** @type {Element} */ (event.target).closest(".finding");
    this.#mendedAt = found ? [...(found.parentElement?.children ?? [])].indexOf(found) : -1;
  }

  /** What a remedy did is told where its finding was: the head of the page is far above. @param {string} words */
  tellMended(words) {
    this.#mended.textContent = words;
    this.#layMended();
  }

  #layMended() {
    const told = this.#mended.textContent;
    if (!told || this.#state?.kept?.said !== told) {
      this.#mended.remove();
      return;
    }
    const found = this.#kept.get(FAULTS)?.element;
    const others = [...(found?.children ?? [])].filter((each) => each !== this.#mended);
    const next = others[this.#mendedAt] ?? null;
    if (found && (this.#mended.parentElement !== found || this.#mended.nextElementSibling !== next)) found.insertBefore(this.#mended, next);
    // the key that had the focus is off, or gone with its finding
    if (document.activeElement?.matches("body, .remedy .key")) this.#mended.focus({ preventScroll: true });
  }

  /** @param {State} state */
  set state(state) {
    const before = this.#state;
    this.#state = state;
    if (state.plan !== before?.plan || (!state.plan && state.faults.length)) this.#lay(state, this.#isWorkedOut(state.plan, before?.plan));
    if (state.chosen !== before?.chosen || state.plan !== before?.plan) this.#mark(state.chosen);
    if (state.kept !== before?.kept || state.plan !== before?.plan) this.#layMended();
  }

  /** Whether a plan is the one that stood there, with more of it worked out. What stood before is looked back to. @param {State["plan"]} plan @param {State["plan"]} [before] */
  #isWorkedOut(plan, before) {
    if (plan && before && plan.key === before.key) return true;
    const comparable = plan?.units === before?.units && plan?.bothUnits === before?.bothUnits;
    this.#past = new Map(comparable ? [...this.#kept].map(([id, { sheet }]) => [id, sheet]) : []);
    return false;
  }

  /** @param {State} state @param {boolean} workedOut whether it is the plan that stood there: what changed in it stays marked */
  #lay({ plan }, workedOut) {
    /** @type {Map<string, {sheet: Sheet, element: HTMLElement}>} */
    const kept = new Map();
    const laid = (plan ? chaptersOf(plan) : []).map((sheet, place) => {
      const before = this.#kept.get(sheet.id);
      const same = before && sameSheet(before.sheet, sheet);
      const element = same ? before.element : sheetElement(sheet, this.#past.get(sheet.id), FIRST + place, plan?.findings ?? []);
      if (!same) this.#reopen(element);
      else if (!workedOut) for (const cell of element.querySelectorAll(".changed, .has-changed")) cell.classList.remove("changed", "has-changed");
      kept.set(sheet.id, { sheet, element });
      return element;
    });
    this.#kept = kept;
    lay(this, laid);
  }

  /** @param {HTMLElement} chapter */
  #reopen(chapter) {
    const folds = [...chapter.querySelectorAll("details")];
    for (const each of folds) each.open = this.#opened.has(each.dataset["fold"] ?? "");
    if (folds.length > 1) {
      const all = h("button", { type: "button", class: "key quiet open-all" }, wordsOf(folds));
      chapter.querySelector("h2")?.after(all);
    }
  }

  /** Tint the rows about the part chosen, and the folds that hold them. @param {string} chosen */
  #mark(chosen) {
    for (const row of this.querySelectorAll(".row.points")) {
      const parts = /** @type {HTMLElement} */ (row).dataset["parts"]?.split(" ") ?? [];
      row.classList.toggle("about-part", chosen !== "" && parts.includes(chosen));
    }
    for (const each of this.querySelectorAll("details")) {
      each.classList.toggle("about-part", Boolean(each.querySelector(".about-part")));
    }
  }

  /** Bring a row into sight. @param {{sheet: string, block: number, row: number}} where */
  show({ sheet, block, row }) {
    const line = this.#kept.get(sheet)?.element.querySelector(`[data-block="${block}"] .row[data-row="${row}"]`);
    if (line) openAround(line);
    line?.scrollIntoView({ block: "center" });
    line?.querySelector("button")?.focus({ preventScroll: true });
  }
}

/** @param {Event} event @returns {string[]} */
function partsAt(event) {
  const row = /** @type {Element} */ (event.target).closest("[data-parts]");
  return row instanceof HTMLElement ? (row.dataset["parts"]?.split(" ") ?? []) : [];
}

/** What the key over the folds of a chapter does. @param {readonly HTMLDetailsElement[]} folds */
function wordsOf(folds) {
  return folds.some((each) => !each.open) ? `Open all ${folds.length}` : "Fold all";
}

/** @param {Sheet} sheet @param {Sheet | undefined} before @param {number} number @param {readonly FindingView[]} findings */
function sheetElement(sheet, before, number, findings) {
  const lead = sheet.lead ? [h("p", { class: "lead" }, sheet.lead)] : [];
  const blocks =
    sheet.id === FAULTS ? findingElements(findings, Boolean(numberOf(location.pathname))) : together(sheet).map((places) => shownElement(sheet, places, before?.blocks ?? []));
  const slider = sheet.id === SEASONS ? [document.createElement("year-slider")] : [];
  const made = chapter(number, sheet.id, sheet.title, ...lead, ...slider, ...blocks);
  made.classList.add("long");
  return made;
}

/** @param {Sheet} sheet @param {number[]} places @param {readonly Block[]} before @returns {HTMLElement} */
function shownElement(sheet, places, before) {
  const blocks = places.map((place) => /** @type {Block} */ (sheet.blocks[place]));
  const [place = 0, block] = [places[0], blocks[0]];
  if (!block) return h("div");
  const made =
    places.length > 1
      ? gatheredElement(blocks, places.map((each) => before[each]))
      : (isFolded(sheet, place) ? foldedElement : blockElement)(block, before[place]);
  made.dataset["block"] = String(place);
  if (made instanceof HTMLDetailsElement) made.dataset["fold"] = `${sheet.id} ${place}`;
  return made;
}
