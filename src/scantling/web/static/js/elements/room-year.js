/** The year of a room: drawn, and month by month. */

import { LitElement, html, nothing } from "lit";
import { drawing } from "./drawing.js";
import { enlarge } from "./enlarging.js";
import { moveByKeys } from "./wide-ones.js";

/** @typedef {import("../profile-types.js").RoomYearBody} RoomYearBody */

export class RoomYear extends LitElement {
  /** @override */
  static properties = { year: { attribute: false } };

  constructor() {
    super();
    /** @type {RoomYearBody | null} */
    this.year = null;
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const { year } = this;
    if (!year) return nothing;
    return html`
      <figure class="block">
        <div class="picture">${drawing(year.picture, `The year of ${year.title}. ${year.words}`) ?? nothing}</div>
        <div class="under-picture">
          <figcaption class="note">${year.words} ${year.about} ${year.notes.join(" ")}</figcaption>
          <button type="button" class="key quiet" @click=${() => this.#enlarge(`The year of ${year.title}`)}>Enlarge</button>
        </div>
      </figure>
      <details class="fold">
        <summary><span class="fold-title">Month by month</span></summary>
        <div class="scroll" tabindex="0" role="region" aria-label="Month by month">
          <table>
            <thead>
              <tr>
                <th scope="col">Month</th>
                <th scope="col" class="right">Air</th>
                <th scope="col" class="right">Humidity</th>
                <th scope="col" class="right">Wood rests at</th>
              </tr>
            </thead>
            <tbody>
              ${year.months.map((row) => html`<tr>${row.map((cell, i) => (i ? html`<td class="right">${cell}</td>` : html`<th scope="row">${cell}</th>`))}</tr>`)}
            </tbody>
          </table>
        </div>
      </details>
    `;
  }

  /** @override */
  updated() {
    const frame = this.querySelector(".picture");
    if (frame) moveByKeys(frame);
  }

  /** @param {string} label */
  #enlarge(label) {
    const frame = /** @type {HTMLElement | null} */ (this.querySelector(".picture"));
    if (frame) enlarge(frame, label);
  }
}
