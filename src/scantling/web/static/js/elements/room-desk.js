/**
 * Rooms: those of the maker's own with their figures and their year, and those known by name to look at or begin from.
 *
 * @fires keep-typed, let-go, begin-kept, change-kept
 */

import { LitElement, html, nothing } from "lit";
import { live } from "lit/directives/live.js";
import { Refused } from "../api/plan.js";
import { askKnownRooms, askRoomYear } from "../api/profiles.js";
import { apartFrom, faultsApart, settingFields, typedBar } from "./setting-parts.js";

/** @typedef {import("../profile-types.js").DeskState} DeskState */
/** @typedef {import("../profile-types.js").KnownRoom} KnownRoom */
/** @typedef {import("../profile-types.js").KnownRooms} KnownRooms */
/** @typedef {import("../profile-types.js").RoomOpen} RoomOpen */
/** @typedef {import("../profile-types.js").RoomYearBody} RoomYearBody */
/** @typedef {import("../profile-types.js").SectionBody} SectionBody */

export class RoomDesk extends LitElement {
  /** @override */
  static properties = { state: { attribute: false }, known: { state: true }, looked: { state: true }, town: { state: true }, fault: { state: true } };

  constructor() {
    super();
    /** @type {DeskState | null} */
    this.state = null;
    /** @type {KnownRooms | null} */
    this.known = null;
    /** @type {{name: string, year: RoomYearBody} | null} */
    this.looked = null;
    this.town = "";
    this.fault = "";
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  connectedCallback() {
    super.connectedCallback();
    void this.#trying(async () => {
      this.known = await askKnownRooms();
    });
  }

  /** @override */
  render() {
    const { state, known } = this;
    if (!state?.loaded || (!known && !this.fault)) return html`<p class="said" role="status">Looking ...</p>`;
    return html`
      ${state.opened ? this.#own(state) : html`${faultsApart(state.faults)}<p class="none">No room of your own is kept yet: ${known ? "begin one from a room below, and change what you know better." : "read one in from a file."}</p>`}
      <h2 class="begin">Rooms known by name</h2>
      ${this.fault ? html`<p class="notice bad" role="alert">${this.fault}</p>` : nothing}
      ${known ? this.#byName(state, known) : nothing}
      <label class="key">Read in a file <input type="file" accept=".yaml,.yml" @change=${(/** @type {Event} */ event) => this.#file(event)} /></label>
    `;
  }

  /** @param {DeskState} state @param {KnownRooms} known */
  #byName(state, known) {
    return html`
      <p class="lead">Between which moistures the wood in them goes. What you measure in the room itself is better than any of them.</p>
      ${this.#town(state, known)}
      <ul class="rooms">
        ${known.typical.map((room) => this.#room(room, state))}
      </ul>
    `;
  }

  /** @param {DeskState} state */
  #own(state) {
    /** @type {RoomOpen} */
    const opened = state.opened;
    const settings = opened.sections.flatMap((section) => section.settings);
    const months = opened.kind === "months";
    return html`
      <profile-bar kind="rooms" .state=${state}></profile-bar>
      ${faultsApart(apartFrom(settings, state))}
      <room-year .year=${opened.year}></room-year>
      <form class="of-room" novalidate @submit=${(/** @type {SubmitEvent} */ event) => this.#submit(event)}>
        <label class="how-known"
          >How its air is known
          <select .value=${live(opened.kind)} @change=${(/** @type {Event} */ event) => this.#air(/** @type {HTMLSelectElement} */ (event.target), opened)} ?disabled=${state.busy}>
            ${opened.kinds.map(([kind, words]) => html`<option value=${kind} ?selected=${kind === opened.kind}>${words}</option>`)}
          </select>
        </label>
        <div class=${months ? "twelve" : ""}>${opened.sections.map((section) => this.#section(section, state))}</div>
        ${typedBar(state, () => this.#tell("let-go"))}
      </form>
      <profile-text kind="rooms" .state=${state}></profile-text>
    `;
  }

  /** @param {SectionBody} section @param {DeskState} state */
  #section(section, state) {
    if (!section.label) return settingFields(section.settings, state);
    return html`<section class="part" aria-label=${section.label}>
      <h3>${section.label}</h3>
      ${section.about ? html`<p class="about-part">${section.about}</p>` : nothing} ${settingFields(section.settings, state)}
    </section>`;
  }

  /** @param {DeskState} state @param {KnownRooms} known */
  #town(state, { towns }) {
    const found = towns.find((town) => town.name === this.town);
    return html`<div class="towns of-room">
      <label
        >A heated house in
        <select @change=${(/** @type {Event} */ event) => (this.town = /** @type {HTMLSelectElement} */ (event.target).value)}>
          <option value="">a town ...</option>
          ${towns.map((town) => html`<option value=${town.name} ?selected=${town.name === this.town}>${town.name}</option>`)}
        </select>
      </label>
      ${found ? html`<ul class="rooms">${this.#room(found, state)}</ul>` : nothing}
    </div>`;
  }

  /** @param {KnownRoom} room @param {DeskState} state */
  #room(room, state) {
    const shown = this.looked?.name === room.name ? this.looked.year : null;
    return html`<li>
      <div class="part-head">
        <h3>${room.title}</h3>
        <b class="between">${room.driestPct.toFixed(1)} to ${room.wettestPct.toFixed(1)} %</b>
        <button type="button" class="key quiet" aria-expanded=${String(shown !== null)} aria-label=${`Its year: ${room.title}`} @click=${() => void this.#look(room.name)}>Its year</button>
        <button type="button" class="key" ?disabled=${state.busy} aria-label=${`Begin from it: ${room.title}`} @click=${() => this.#tell("begin-kept", { known: room.name })}>Begin from it</button>
      </div>
      ${shown ? html`<room-year .year=${shown}></room-year>` : html`<p class="about-part">${room.about}</p>`}
    </li>`;
  }

  /** @param {string} name */
  async #look(name) {
    if (this.looked?.name === name) {
      this.looked = null;
      return;
    }
    await this.#trying(async () => {
      this.looked = { name, year: await askRoomYear(name, "mm") };
    });
  }

  /** @param {HTMLSelectElement} field @param {RoomOpen} opened */
  #air(field, opened) {
    const place = field.value === "climate" ? (this.town || this.known?.towns[0]?.name) : "";
    this.#tell("change-kept", { what: "air", change: { kind: field.value, place }, said: "Its air is known another way; its year is as it was." });
    field.value = opened.kind;
  }

  /** @param {SubmitEvent} event */
  #submit(event) {
    event.preventDefault();
    this.#tell("keep-typed");
  }

  /** @param {Event} event */
  async #file(event) {
    const field = /** @type {HTMLInputElement} */ (event.target);
    const [file] = field.files ?? [];
    if (!file) return;
    const text = await file.text();
    field.value = "";
    this.#tell("begin-kept", { text });
  }

  /** @param {() => Promise<void>} work */
  async #trying(work) {
    try {
      await work();
      this.fault = "";
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.fault = error.message;
    }
  }

  /** @param {string} event @param {unknown} [detail] */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}
