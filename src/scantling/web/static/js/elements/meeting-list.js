/**
 * Parts that meet with no joint between them, and the joints that fit there, each one key away.
 *
 * @fires file-changed detail: the piece as it is kept then
 */

import { LitElement, html, nothing } from "lit";
import { askMeetings, changeEntry } from "../api/entries.js";
import { numberOf } from "../api/pieces.js";
import { Refused } from "../api/plan.js";
import { allTold } from "../lib/faults.js";

/** @typedef {import("../types.js").MeetingBody} MeetingBody */
/** @typedef {import("../types.js").OfferBody} OfferBody */

/** What the trade calls a joint, where the word of the file is not that. @type {Readonly<Record<string, string>>} */
const CALLED = Object.freeze({ mortise_tenon: "mortise and tenon", dowel_pin: "dowels" });

export class MeetingList extends LitElement {
  /** @override */
  static properties = { version: { attribute: false }, fresh: { attribute: false }, meetings: { state: true }, fault: { state: true } };

  #number = numberOf(location.pathname);
  /** Whether what was added has not been shown yet. */
  #unread = false;

  constructor() {
    super();
    this.version = 0;
    /** a part just added: what it meets comes first, opened */
    this.fresh = "";
    /** @type {MeetingBody[]} */
    this.meetings = [];
    this.fault = "";
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override @param {Map<string, unknown>} changed */
  updated(changed) {
    if (changed.has("version") && this.version && this.#number) {
      this.fault = ""; // it was of the piece before
      void this.#load();
    }
    if (changed.has("fresh")) this.#unread = this.fresh !== "";
  }

  /** @override */
  render() {
    if (!this.meetings.length) return nothing;
    return html`<details class="meetings">
      <summary>Parts that touch with no joint of their own: ${this.meetings.length}</summary>
      <p>Some are meant to, as a leg under a top that its aprons hold.</p>
      ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
      <ul>
        ${[...this.meetings].sort((one, other) => this.#rank(one) - this.#rank(other)).map(
          (each) => html`<li>
            <b>${each.words}</b>
            ${each.held ? html`<p>${each.held.slice(0, 1).toUpperCase()}${each.held.slice(1)}</p>` : nothing}
            ${each.offers.length || each.held ? each.offers.map((offer, index) => this.#offer(offer, index === 0)) : html`<p>Nothing the program knows fits here: move one of them, or write a joint in the file.</p>`}
          </li>`,
        )}
      </ul>
    </details>`;
  }

  /** @param {OfferBody} offer @param {boolean} first */
  #offer(offer, first) {
    return html`<div class="offer">
      <button type="button" class="key ${first ? "main" : ""}" @click=${() => this.#join(offer)}>${CALLED[offer.family] ?? offer.family.replaceAll("_", " ")}</button>
      <span>${offer.reason}</span>
    </div>`;
  }

  async #load() {
    try {
      this.meetings = (await askMeetings(this.#number)).meetings;
      if (this.#unread && this.meetings.some((each) => this.#rank(each) === 0)) await this.#show();
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.meetings = [];
    }
  }

  /** First what meets the part just added. @param {MeetingBody} meeting */
  #rank({ one, other }) {
    return this.fresh && [one, other].includes(this.fresh) ? 0 : 1;
  }

  async #show() {
    this.#unread = false;
    await this.updateComplete;
    const list = this.querySelector("details");
    if (!list) return;
    list.open = true;
    if (document.activeElement && document.activeElement !== document.body) return; // somebody writes elsewhere by now
    list.querySelector("summary")?.focus();
    list.scrollIntoView({ block: "nearest" });
  }

  /** @param {OfferBody} offer */
  async #join({ family, first, second }) {
    try {
      const opened = await changeEntry(this.#number, "joints", { family, first, second, parent: this.version });
      this.fault = "";
      this.dispatchEvent(new CustomEvent("file-changed", { detail: opened, bubbles: true }));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.fault = ["Not joined.", ...allTold(error.faults)].join(" ");
    }
  }
}
