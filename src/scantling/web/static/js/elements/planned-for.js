/**
 * Which shop and room a piece that is begun shall be planned for. The last choice is remembered in this browser; a
 * maker with one shop need not choose it.
 */

import { LitElement, html, nothing } from "lit";
import { Refused } from "../api/plan.js";
import { askKept, askKnownRooms } from "../api/profiles.js";
import { choiceOf } from "../lib/planned-for.js";
import { keep, recall } from "../lib/this-browser.js";
import { roomOptions } from "./room-options.js";

/** @typedef {import("../profile-types.js").ProfileBody} ProfileBody */
/** @typedef {import("../profile-types.js").KnownRooms} KnownRooms */
/** @typedef {import("../lib/planned-for.js").Choice} Choice */

const CHOSEN = "scantling-planned-for";

export class PlannedFor extends LitElement {
  /** @override */
  static properties = { shops: { state: true }, rooms: { state: true }, known: { state: true }, chosen: { state: true } };

  constructor() {
    super();
    /** @type {ProfileBody[]} */
    this.shops = [];
    /** @type {ProfileBody[]} */
    this.rooms = [];
    /** @type {KnownRooms | null} */
    this.known = null;
    /** @type {{shop: string | null, room: string | null}} null where nothing was chosen yet */
    this.chosen = remembered();
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  connectedCallback() {
    super.connectedCallback();
    void this.#load();
  }

  /** What is chosen, as the server takes it. @returns {Choice[]} */
  get choices() {
    return [choiceOf("shop", this.#shop), choiceOf("room", this.#room)].filter(({ kept, known }) => kept !== undefined || known !== undefined);
  }

  /** @override */
  render() {
    if (!this.known) return nothing;
    const there = { rooms: this.rooms, typical: this.known.typical, towns: this.known.towns.map((town) => town.name) };
    return html`
      <div><label for="begun-shop">Shop</label>
        <select id="begun-shop" @change=${(/** @type {Event} */ event) => this.#choose("shop", event)}>
          <option value="" ?selected=${!this.#shop}>The usual shop</option>
          ${this.shops.map((each) => html`<option value=${`kept ${each.number}`} ?selected=${this.#shop === `kept ${each.number}`}>${each.name}</option>`)}
        </select></div>
      <div><label for="begun-room">Room it will stand in</label>
        <select id="begun-room" @change=${(/** @type {Event} */ event) => this.#choose("room", event)}>
          ${roomOptions(there, this.#room || "known dry-winter-house")}
        </select></div>
    `;
  }

  /** What is remembered, if it is still there; else the only shop. */
  get #shop() {
    const { shop } = this.chosen;
    if (shop !== null && (shop === "" || this.shops.some((each) => `kept ${each.number}` === shop))) return shop;
    return this.shops.length === 1 ? `kept ${this.shops[0]?.number}` : "";
  }

  get #room() {
    const { room } = this.chosen;
    return room?.startsWith("kept ") && !this.rooms.some((each) => `kept ${each.number}` === room) ? "" : (room ?? "");
  }

  async #load() {
    try {
      [this.shops, this.rooms, this.known] = await Promise.all([askKept("shops"), askKept("rooms"), askKnownRooms()]);
    } catch (error) {
      if (!(error instanceof Refused)) throw error; // without it pieces begin with the usual ones
    }
  }

  /** @param {"shop" | "room"} what @param {Event} event */
  #choose(what, event) {
    this.chosen = { ...this.chosen, [what]: /** @type {HTMLSelectElement} */ (event.target).value };
    keep(CHOSEN, this.chosen);
  }
}

/** @returns {{shop: string | null, room: string | null}} */
function remembered() {
  const { shop, room } = recall(CHOSEN) ?? {};
  return { shop: typeof shop === "string" ? shop : null, room: typeof room === "string" ? room : null };
}
