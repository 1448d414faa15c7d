/** The blocks of a sheet as elements: table, facts, words, caution, picture; each open or folded. */

import { changedCells } from "../lib/changing.js";
import { gathered, inside } from "../lib/folding.js";
import { layout } from "../lib/laying.js";
import { h } from "./build.js";
import { drawing } from "./drawing.js";
import { enlarge } from "./enlarging.js";
import { fold } from "./fold.js";
import { moveByKeys } from "./wide-ones.js";

/** @typedef {import("../types.js").Block} Block */
/** @typedef {import("../types.js").Table} Table */
/** @typedef {import("../types.js").Picture} Picture */

/**
 * A block in a fold, its title in the line that stays.
 *
 * @param {Block} block
 * @param {Block | undefined} before the block it replaces
 * @returns {HTMLDetailsElement}
 */
export function foldedElement(block, before) {
  const whole = blockElement(block, before);
  whole.querySelector(":scope > h3")?.remove();
  const made = fold("title" in block ? block.title : "", inside(block), ...whole.childNodes);
  made.classList.add("block");
  made.classList.toggle("has-changed", Boolean(made.querySelector(".changed")));
  return made;
}

/**
 * Blocks that are told in one line together.
 *
 * @param {Block[]} blocks
 * @param {Array<Block | undefined>} before
 * @returns {HTMLDetailsElement}
 */
export function gatheredElement(blocks, before) {
  const { first, others } = gathered(blocks.map((block) => ("title" in block ? block.title : "")));
  const made = fold(`${first} and ${others.length} more`, others.join(" · "), ...blocks.map((block, i) => blockElement(block, before[i])));
  made.classList.add("block");
  return made;
}

/**
 * @param {Block} block
 * @param {Block | undefined} before the block it replaces
 * @returns {HTMLElement}
 */
export function blockElement(block, before) {
  switch (block.kind) {
    case "table":
      return tableElement(block, before);
    case "facts":
      return framed(
        block.title,
        h("dl", { class: "facts" }, ...block.items.map(([label, value]) => h("div", {}, h("dt", {}, label), h("dd", {}, value)))),
      );
    case "words":
      return framed(block.title, wordsElement(block.lines, block.numbered));
    case "caution":
      return h(
        "div",
        { class: "block caution", role: "note" },
        h("h3", {}, "Caution"),
        ...block.lines.map((line) => h("p", {}, line)),
      );
    case "picture":
      return pictureElement(block);
  }
}

/** @param {string} title @param {...HTMLElement} children */
function framed(title, ...children) {
  return h("div", { class: "block" }, ...(title ? [h("h3", {}, title)] : []), ...children);
}

/** @param {string[]} lines @param {boolean} numbered */
function wordsElement(lines, numbered) {
  const only = lines[0];
  if (!numbered && lines.length === 1 && only !== undefined) return h("p", { class: "words" }, only);
  return h("div", { class: "words" }, h(numbered ? "ol" : "ul", {}, ...lines.map((line) => h("li", {}, line))));
}

/** @param {Table} table @param {Block | undefined} before */
function tableElement(table, before) {
  const changed = changedCells(table, before);
  const { beside, under } = layout(table);
  const heads = beside.map((c) => h("th", { scope: "col", class: table.columns[c]?.align ?? "left" }, table.columns[c]?.title ?? ""));
  const rows = table.rows.flatMap((row, r) => {
    const made = rowElement(table, row, { r, beside, under, changed });
    const group = table.groups[r] ?? "";
    return group && group !== table.groups[r - 1] ? [groupElement(group, beside.length), made] : [made];
  });
  const label = table.title || "Table";
  const body = rows.length
    ? h(
        "div",
        { class: "scroll", tabindex: "0", role: "region", "aria-label": label },
        h("table", { class: sizeOf(beside.length) }, h("thead", {}, h("tr", {}, ...heads)), ...rows),
      )
    : h("p", { class: "blank" }, "Nothing to list.");
  const note = table.note ? [h("p", { class: "note" }, table.note)] : [];
  return framed(table.title, body, ...note);
}

/** A group's name over its rows. @param {string} group @param {number} columns */
function groupElement(group, columns) {
  const head = h("th", { scope: "rowgroup", colspan: String(columns) }, group);
  return h("tbody", { class: "group" }, h("tr", {}, head));
}

/**
 * One row; what takes whole sentences is set under it, over the full width.
 *
 * @param {Table} table
 * @param {string[]} row
 * @param {{r: number, beside: number[], under: number[], changed: Set<string>}} where
 */
function rowElement(table, row, { r, beside, under, changed }) {
  const parts = table.parts[r] ?? [];
  const cell = (/** @type {number} */ c) => {
    const title = table.columns[c]?.title ?? "";
    const kind = `${table.columns[c]?.align ?? "left"}${changed.has(`${r},${c}`) ? " changed" : ""}`;
    const text = row[c] ?? "";
    const points = c === beside[0] && parts.length > 0;
    return h("td", { class: kind, "data-label": title }, points ? h("button", { type: "button", class: "point" }, text) : text);
  };
  const sentences = under
    .filter((c) => row[c])
    .map((c) => h("p", {}, h("span", {}, `${table.columns[c]?.title ?? ""}: `), row[c] ?? ""));
  const lines = [h("tr", {}, ...beside.map(cell))];
  if (sentences.length) lines.push(h("tr", { class: "under" }, h("td", { colspan: String(beside.length) }, ...sentences)));
  const made = h("tbody", { class: `row ${table.tones[r] ?? ""}${parts.length ? " points" : ""}`, "data-row": String(r) }, ...lines);
  if (parts.length) made.dataset["parts"] = parts.join(" ");
  return made;
}

/** How much room a table wants. @param {number} columns */
function sizeOf(columns) {
  return `${columns >= 4 ? "many" : ""}${columns >= 7 ? " wide" : ""}`;
}

/** A drawing with its words, to be looked at larger. @param {Picture} picture */
function pictureElement({ title, svg, words }) {
  const frame = h("div", { class: "picture" });
  const drawn = drawing(svg, words || title);
  if (drawn) frame.append(drawn);
  moveByKeys(frame);
  const larger = h("button", { type: "button", class: "key quiet", onclick: () => enlarge(frame, title || words) }, "Enlarge");
  const under = h("div", { class: "under-picture" }, h("figcaption", { class: "note" }, words), larger);
  return h("figure", { class: "block" }, ...(title ? [h("h3", {}, title)] : []), frame, under);
}
