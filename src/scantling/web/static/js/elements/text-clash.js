/** What is told where a piece was changed elsewhere while it was typed: both ways, and the keys to choose. */

import { html, nothing } from "lit";
import { broken } from "../lib/faults.js";

/** @typedef {import("../types.js").WritingState} WritingState */

/**
 * @param {NonNullable<WritingState["clash"]>} clash
 * @param {(way: "merged" | "theirs" | "yours") => void} settle
 * @param {string} [title]
 */
export function textClash(clash, settle, title = "Saved elsewhere meanwhile") {
  return html`<section class="clash" role="alert">
    <h2>${title}</h2>
    <p>${clash.merged ? "Both changes touch different lines and fit together." : "Both changes touch the same lines. Nothing is lost: take one, the other stays among the versions, or go on writing."}</p>
    ${clash.lines.map(
      (each) => html`<div class="pair">
        <p>${each.where}, line ${each.line}</p>
        <pre aria-label="Theirs">${each.theirs.join("\n")}</pre>
        <pre aria-label="Yours">${each.yours.join("\n")}</pre>
      </div>`,
    )}
    <div class="ways">
      ${clash.merged ? html`<button type="button" class="key main" @click=${() => settle("merged")}>Keep both changes</button>` : nothing}
      <button type="button" class="key" @click=${() => settle("yours")}>Keep mine</button>
      <button type="button" class="key" @click=${() => settle("theirs")}>Take the other</button>
    </div>
  </section>`;
}

/**
 * What is wrong with a text, each with a key that leads to its line.
 *
 * @param {readonly import("../types.js").FaultView[]} faults
 * @param {(fault: import("../types.js").FaultView) => void} goTo
 */
export function faultList(faults, goTo) {
  return html`<ul class="faults">
    ${faults.map(
      (each) => html`<li>
        <button type="button" class="point" @click=${() => goTo(each)}>${each.line ? `Line ${each.line}` : each.place}</button>
        <p>${each.line ? html`<b>${each.place}</b> ` : nothing}${broken(each)} <span>${each.remedy}</span></p>
      </li>`,
    )}
  </ul>`;
}
