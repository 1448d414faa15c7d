/** The blocks of a sheet as elements: table, facts, words, caution, picture. */

import { changedCells } from "../lib/changing.js";
import { h } from "./build.js";

/** @typedef {import("../types.js").Block} Block */
/** @typedef {import("../types.js").Table} Table */
/** @typedef {import("../types.js").Picture} Picture */

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
  const head = h("tr", {}, ...table.columns.map(({ title, align }) => h("th", { scope: "col", class: align }, title)));
  const rows = table.rows.map((row, r) => {
    const parts = table.parts[r] ?? [];
    const cells = row.map((cell, c) => {
      const kind = `${table.columns[c]?.align ?? "left"}${changed.has(`${r},${c}`) ? " changed" : ""}`;
      const first = c === 0 && parts.length > 0;
      return h("td", { class: kind }, first ? h("button", { type: "button", class: "point" }, cell) : cell);
    });
    const line = h("tr", { class: `${table.tones[r] ?? ""}${parts.length ? " points" : ""}` }, ...cells);
    if (parts.length) line.dataset["parts"] = parts.join(" ");
    line.dataset["row"] = String(r);
    return line;
  });
  const label = table.title || "Table";
  const body = rows.length
    ? h(
        "div",
        { class: "scroll", tabindex: "0", role: "region", "aria-label": label },
        h("table", {}, h("thead", {}, head), h("tbody", {}, ...rows)),
      )
    : h("p", { class: "blank" }, "Nothing to list.");
  const note = table.note ? [h("p", { class: "note" }, table.note)] : [];
  return framed(table.title, body, ...note);
}

/**
 * A drawing set into the page, so that its lines take the page's ink. Its rules go into the page's own sheets, and its
 * styles are set one by one, since the page's policy lets no markup bring styles along.
 *
 * @param {Picture} picture
 */
function pictureElement({ title, svg, words }) {
  const drawn = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  for (const bad of drawn.querySelectorAll("script, foreignObject, a, image, use")) bad.remove();
  for (const style of drawn.querySelectorAll("style")) {
    adopt(style.textContent ?? "");
    style.remove();
  }
  const element = /** @type {SVGSVGElement} */ (document.importNode(drawn, true));
  for (const each of [element, ...element.querySelectorAll("*")]) restyle(/** @type {SVGElement} */ (each));
  element.setAttribute("role", "img");
  element.setAttribute("aria-label", words || title);
  const frame = h("div", { class: "picture" });
  frame.append(element);
  return h("figure", { class: "block" }, ...(title ? [h("h3", {}, title)] : []), frame, ...(words ? [h("figcaption", { class: "note" }, words)] : []));
}

/** @param {SVGElement} element */
function restyle(element) {
  for (const { name } of [...element.attributes]) if (name.startsWith("on")) element.removeAttribute(name);
  const style = element.getAttribute("style");
  if (style === null) return;
  element.removeAttribute("style");
  element.style.cssText = style;
}

/** @type {Set<string>} */
const adopted = new Set();

/** @param {string} rules */
function adopt(rules) {
  if (!rules || adopted.has(rules)) return;
  adopted.add(rules);
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(rules);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
}
