/** What the rules found: what stops the job or must be watched stands open, notes are folded. */

import { WEIGHTS } from "../lib/verdict.js";
import { h } from "./build.js";
import { fold } from "./fold.js";

/** @typedef {import("../types.js").FindingView} FindingView */
/** @typedef {import("../types.js").Remedy} Remedy */

/**
 * @param {readonly FindingView[]} findings
 * @param {boolean} kept whether the piece is kept, so that a change of its file can be written
 * @returns {HTMLElement[]}
 *
 * A remedy's key fires `apply-remedy`, detail: the remedy; whoever refuses it lets the key be pressed again.
 */
export function findingElements(findings, kept = false) {
  const lineElement = (/** @type {FindingView} */ found) => oneElement(found, kept);
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

/** @param {FindingView} found @param {boolean} kept @returns {HTMLElement} */
function oneElement(found, kept) {
  const line = h(
    "div",
    { class: `finding ${found.severity}` },
    h("p", { class: "weight" }, WEIGHTS[found.severity] ?? ""),
    h("p", { class: "message" }, found.message),
    ...(found.advice ? [h("p", { class: "advice" }, found.advice)] : []),
    ...found.remedies.map((each) => remedyElement(each, kept)),
    h("p", { class: "code place" }, [found.where, found.code, found.source].filter(Boolean).join(" · ")),
  );
  if (found.parts.length) line.dataset["parts"] = found.parts.join(" ");
  return line;
}

/** A key that writes the change; where there is nothing to write it into, the line to write. @param {Remedy} remedy @param {boolean} kept @returns {HTMLElement} */
function remedyElement(remedy, kept) {
  if (remedy.takenBack && !(kept && remedy.here)) return h("p", { class: "remedy" }, "Take out of the notes: ", h("code", {}, remedy.line));
  if (!kept && !remedy.parameter) return h("p", { class: "remedy" }, "Write in the piece file: ", h("code", {}, remedy.line));
  /** @param {Event} event */
  const apply = (event) => {
    const key = /** @type {HTMLButtonElement} */ (event.currentTarget);
    key.disabled = true; // one press writes one version
    key.dispatchEvent(new CustomEvent("apply-remedy", { detail: remedy, bubbles: true }));
  };
  return h("p", { class: "remedy" }, h("button", { type: "button", class: "key", onclick: apply }, remedy.words));
}
