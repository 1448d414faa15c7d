/** What the rules found: what stops the job or must be watched stands open, notes are folded. */

import { WEIGHTS } from "../lib/verdict.js";
import { h } from "./build.js";
import { fold } from "./fold.js";

/** @typedef {import("../types.js").FindingView} FindingView */

/** @param {readonly FindingView[]} findings @returns {HTMLElement[]} */
export function findingElements(findings) {
  if (!findings.length) return [h("p", { class: "blank" }, "The rules found nothing to settle.")];
  const open = findings.filter((each) => each.severity !== "note");
  const notes = findings.filter((each) => each.severity === "note");
  const shown = open.map(lineElement);
  if (!notes.length) return shown;
  const folded = fold(notes.length === 1 ? "1 note" : `${notes.length} notes`, "good to know", ...notes.map(lineElement));
  folded.dataset["fold"] = "notes";
  folded.classList.add("block");
  return [...shown, folded];
}

/** @param {FindingView} found @returns {HTMLElement} */
function lineElement(found) {
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
}
