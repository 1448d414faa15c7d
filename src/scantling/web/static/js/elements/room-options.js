/** The rooms there are to choose, as a list in groups. */

import { html, nothing } from "lit";
import { live } from "lit/directives/live.js";

/** @typedef {{number: number, name: string}} Option */

/**
 * @param {{rooms: readonly Option[], typical: ReadonlyArray<{name: string, title: string}>, towns: readonly string[]}} there
 * @param {string} chosen value of the one chosen, see lib/planned-for.js
 */
export function roomOptions({ rooms, typical, towns }, chosen) {
  const option = (/** @type {string} */ value, /** @type {string} */ words) => html`<option value=${value} .selected=${live(value === chosen)}>${words}</option>`;
  return html`
    ${rooms.length ? html`<optgroup label="My rooms">${rooms.map((each) => option(`kept ${each.number}`, each.name))}</optgroup>` : nothing}
    <optgroup label="Typical rooms">${typical.map((each) => option(`known ${each.name}`, each.title))}</optgroup>
    <optgroup label="A heated house in">${towns.map((each) => option(`known ${each}`, each))}</optgroup>
  `;
}
