/** The sheets of the seasons: the year, each joint, when to build. A sheet that did not change keeps its elements. */

import { allTold } from "../lib/faults.js";
import { h, lay } from "./build.js";
import { blockElement } from "./sheet-block.js";

/** @typedef {import("../types.js").Sheet} Sheet */
/** @typedef {import("../state/season-years.js").SeasonState} SeasonState */

const WAIT = "Building it in each month in turn ...";

export class SeasonSheets extends HTMLElement {
  /** @type {Map<string, {text: string, element: HTMLElement}>} */
  #shown = new Map();
  #wait = h("p", { class: "lead", role: "status" }, WAIT);

  /** @param {SeasonState} state */
  set state({ seasons, build, faults, unbuilt }) {
    const sheets = [...(seasons?.sheets ?? []), ...(build?.sheets ?? [])];
    const elements = sheets.map((sheet, i) => this.#element(sheet, i + 1));
    const told = allTold(unbuilt).join(" ") || WAIT;
    if (this.#wait.textContent !== told) this.#wait.textContent = told; // it is read out anew where it is written anew
    this.#wait.className = unbuilt.length ? "notice bad" : "lead";
    this.#wait.hidden = build !== null || !seasons || faults.length > 0;
    lay(this, [...elements, this.#wait]);
  }

  /** @param {Sheet} sheet @param {number} number */
  #element(sheet, number) {
    const text = JSON.stringify(sheet);
    const before = this.#shown.get(sheet.id);
    if (before?.text === text) return before.element;
    const element = h(
      "section",
      { class: "chapter", id: sheet.id },
      h("h2", {}, h("span", { class: "no", "aria-hidden": "true" }, String(number)), sheet.title),
      h("p", { class: "lead" }, sheet.lead),
      ...sheet.blocks.map((block) => blockElement(block, undefined)),
    );
    this.#shown.set(sheet.id, { text, element });
    return element;
  }
}
