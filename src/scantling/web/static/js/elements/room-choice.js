/**
 * Another room in one key: what the piece does there, with its joints as they are cut.
 *
 * @fires choose-room detail: what the room is asked for by; empty for its own
 */

import { LitElement, html, nothing } from "lit";
import { live } from "lit/directives/live.js";

/** @typedef {import("../season-types.js").SeasonState} SeasonState */
/** @typedef {import("../season-types.js").OtherRoom} OtherRoom */

const GROUPS = ["My rooms", "Typical rooms", "A heated house in"];

export class RoomChoice extends LitElement {
  /** @override */
  static properties = { state: { attribute: false } };

  constructor() {
    super();
    /** @type {SeasonState | null} */
    this.state = null;
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const seasons = this.state?.seasons;
    if (!seasons) return nothing;
    const { own, elsewhere, rooms } = seasons;
    return html`
      <div class="where">
        <label for="elsewhere">It stands in</label>
        <select id="elsewhere" @change=${(/** @type {Event} */ event) => this.#choose(/** @type {HTMLSelectElement} */ (event.target).value)}>
          <option value="" .selected=${live(!elsewhere)}>${own}, as planned</option>
          ${GROUPS.map((group) => this.#group(group, rooms.filter((room) => room.group === group), elsewhere))}
        </select>
        ${elsewhere ? html`<button type="button" class="key" @click=${() => this.#choose("")}>Back to ${own}</button>` : nothing}
      </div>
      ${elsewhere ? html`<p class="note">Built as planned, with the joints cut for ${own}; it stands in this room from the day it is built.</p>` : nothing}
    `;
  }

  /** @param {string} group @param {OtherRoom[]} rooms @param {string} elsewhere */
  #group(group, rooms, elsewhere) {
    if (!rooms.length) return nothing;
    return html`<optgroup label=${group}>${rooms.map((room) => html`<option value=${room.value} .selected=${live(room.value === elsewhere)}>${room.label}</option>`)}</optgroup>`;
  }

  /** @param {string} room */
  #choose(room) {
    this.dispatchEvent(new CustomEvent("choose-room", { detail: room, bubbles: true }));
  }
}
