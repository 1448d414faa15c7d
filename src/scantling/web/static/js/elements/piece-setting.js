/**
 * Which shop and which room the piece is planned for; each change is a version. What the kept shop has otherwise by
 * now is told, and taken with one key.
 *
 * @fires file-changed detail: the piece as it is kept then
 */

import { LitElement, html, nothing } from "lit";
import { live } from "lit/directives/live.js";
import { Refused, ask, send } from "../api/plan.js";
import { choiceOf, valueOf } from "../lib/planned-for.js";
import { roomOptions } from "./room-options.js";

/** @typedef {import("../profile-types.js").SettingOfPiece} SettingOfPiece */
/** @typedef {import("../profile-types.js").ChosenBody} ChosenBody */
/** @typedef {import("../lib/planned-for.js").Choice} Choice */

export class PieceSetting extends LitElement {
  /** @override */
  static properties = { number: { type: Number }, version: { attribute: false }, told: { state: true }, fault: { state: true }, busy: { state: true } };

  constructor() {
    super();
    /** number of the piece; 0 where it is not kept */
    this.number = 0;
    this.version = 0;
    /** @type {SettingOfPiece | null} */
    this.told = null;
    this.fault = "";
    this.busy = false;
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override @param {Map<string, unknown>} changed */
  updated(changed) {
    if (changed.has("version") && this.number && this.version) void this.#look();
  }

  /** @override */
  render() {
    const { told } = this;
    if (!told) return nothing;
    return html`
      <div class="row">
        <label for="planned-shop">Shop</label>
        <select id="planned-shop" ?disabled=${this.busy} @change=${(/** @type {Event} */ event) => this.#choose("shop", event)}>
          ${told.shop.own ? html`<option value="own" .selected=${live(true)}>${told.shop.name} (this piece's own)</option>` : nothing}
          <option value="" .selected=${live(told.shop.kept === null && !told.shop.own)}>The usual shop</option>
          ${this.#gone(told.shop, told.shops)}
          ${told.shops.map((each) => html`<option value=${`kept ${each.number}`} .selected=${live(each.number === told.shop.kept)}>${each.name}</option>`)}
        </select>
        <a class="key quiet" href=${told.shop.kept ? `/shop?of=${told.shop.kept}` : "/shop"}>Set it</a>
        ${told.shop.own ? html`<button type="button" class="key quiet" ?disabled=${this.busy} @click=${() => void this.#keepOwn("shop")}>Keep it for other pieces</button>` : nothing}
        ${this.#renewing("shop", told.shop)}
      </div>
      <div class="row">
        <label for="planned-room">Room</label>
        <select id="planned-room" ?disabled=${this.busy} @change=${(/** @type {Event} */ event) => this.#choose("room", event)}>
          ${told.room.own ? html`<option value="own" .selected=${live(true)}>${told.room.name} (this piece's own)</option>` : nothing}
          ${this.#gone(told.room, told.rooms)} ${roomOptions(told, told.room.own ? "own" : valueOf(told.room))}
        </select>
        <a class="key quiet" href=${told.room.kept ? `/rooms?of=${told.room.kept}` : "/rooms"}>Set it</a>
        ${told.room.own ? html`<button type="button" class="key quiet" ?disabled=${this.busy} @click=${() => void this.#keepOwn("room")}>Keep it for other pieces</button>` : nothing}
        ${this.#renewing("room", told.room)}
      </div>
      ${this.fault ? html`<p class="notice bad" role="alert">${this.fault}</p>` : nothing}
    `;
  }

  /** One that was put away is chosen still, and no more on the list. @param {ChosenBody} chosen @param {SettingOfPiece["shops"]} listed */
  #gone({ kept, name }, listed) {
    if (kept === null || listed.some((each) => each.number === kept)) return nothing;
    return html`<option value=${`kept ${kept}`} .selected=${live(true)}>${name} (put away)</option>`;
  }

  /** @param {"shop" | "room"} what @param {ChosenBody} chosen */
  #renewing(what, chosen) {
    if (chosen.now || chosen.kept === null) return nothing;
    const changes = chosen.changes.map(({ label, then, now }) => `${label} ${then || "nothing"} → ${now || "nothing"}`);
    const told = changes.length > 4 ? [...changes.slice(0, 3), `and ${changes.length - 3} more`] : changes;
    return html`<div class="since">
      <p>${chosen.name} has changed since: ${told.join("; ") || "its words"}. The piece keeps it as it was.</p>
      <button type="button" class="key" ?disabled=${this.busy} @click=${() => void this.#send({ what, kept: chosen.kept ?? 0 })}>Take it as it is now</button>
    </div>`;
  }

  /** @param {"shop" | "room"} what @param {Event} event */
  #choose(what, event) {
    const { value } = /** @type {HTMLSelectElement} */ (event.target);
    if (value !== "own") void this.#send(choiceOf(what, value));
  }

  /** @param {Choice} choice */
  async #send(choice) {
    await this.#trying(async () => {
      const opened = await (await send(`/api/pieces/${this.number}/setting`, { ...choice, parent: this.told?.version })).json();
      this.dispatchEvent(new CustomEvent("file-changed", { detail: opened, bubbles: true }));
    });
    await this.#look();
  }

  /** The text the piece has of its own becomes one that others can be planned for. @param {"shop" | "room"} what */
  async #keepOwn(what) {
    await this.#trying(async () => {
      const { content } = await (await ask(`/api/pieces/${this.number}`)).json();
      await send(`/api/${what}s`, { text: content[what].text });
    });
    await this.#look();
  }

  async #look() {
    try {
      this.told = await (await ask(`/api/pieces/${this.number}/setting`)).json();
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
    }
  }

  /** @param {() => Promise<void>} work */
  async #trying(work) {
    this.busy = true;
    try {
      await work();
      this.fault = "";
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.fault = error.message;
    } finally {
      this.busy = false;
    }
  }
}
