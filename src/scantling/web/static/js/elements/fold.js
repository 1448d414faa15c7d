/** A fold: one line that says what is inside, and the whole below it once opened. Printing opens all. */

import { h } from "./build.js";

/**
 * @param {string} title
 * @param {string} inside what is in it, in a few words
 * @param {...Node} children
 * @returns {HTMLDetailsElement}
 */
export function fold(title, inside, ...children) {
  const named = title ? [h("span", { class: "fold-title" }, title), " "] : [];
  return h("details", { class: "fold" }, h("summary", {}, ...named, h("span", { class: "inside" }, inside)), ...children);
}

/** Open every fold that an element stands in. @param {Element} element */
export function openAround(element) {
  for (let at = element.closest("details"); at; at = at.parentElement?.closest("details") ?? null) at.open = true;
}

/** What was folded before printing is folded again after it. */
export function openToPrint() {
  /** @type {HTMLDetailsElement[]} */
  let folded = [];
  addEventListener("beforeprint", () => {
    folded = [...document.querySelectorAll("details")].filter((each) => !each.open);
    for (const each of folded) each.open = true;
  });
  addEventListener("afterprint", () => {
    for (const each of folded) each.open = false;
  });
}
