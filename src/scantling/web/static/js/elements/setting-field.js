/**
 * One setting: as it is written, or the default it has where nothing is, and where that default comes from.
 *
 * @fires type-setting detail: {field, path, text, written}
 * @fires put-back     detail: {field, path, label}
 */

import { LitElement, html, nothing } from "lit";
import { live } from "lit/directives/live.js";

/** @typedef {import("../profile-types.js").SettingBody} SettingBody */
/** @typedef {import("../types.js").FaultView} FaultView */

export class SettingField extends LitElement {
  /** @override */
  static properties = { setting: { attribute: false }, typed: { attribute: false }, faults: { attribute: false } };

  constructor() {
    super();
    /** @type {SettingBody | null} */
    this.setting = null;
    /** @type {string | undefined} */
    this.typed = undefined;
    /** @type {FaultView[]} */
    this.faults = [];
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const { setting } = this;
    if (!setting) return nothing;
    const id = `set-${setting.field.replace(/[^\w]+/g, "-")}`;
    const set = setting.written !== null;
    this.dataset["kind"] = setting.kind;
    this.toggleAttribute("data-set", set);
    this.toggleAttribute("data-typed", this.typed !== undefined);
    this.toggleAttribute("data-faulty", this.faults.length > 0);
    return html`
      <label for=${id}>${setting.label}${this.#unit(setting)}</label>
      <span class="entry">${setting.choices.length ? this.#choosing(setting, id) : this.#typing(setting, id)}</span>
      ${this.faults.map((fault) => html`<p class="fault" id=${`${id}-fault`}>${fault.rule.replace(/^m/, "M")}, got ${fault.value}. ${fault.remedy}</p>`)}
      <p class="about-it" id=${`${id}-about`}>${setting.about}</p>
      ${set && !setting.needed && setting.field !== "name"
        ? html`<button type="button" class="back" aria-label=${`${setting.label}: ${back(setting)}`} @click=${() => this.#tell("put-back", { field: setting.field, path: setting.path, label: setting.label })}>${back(setting)}</button>`
        : nothing}
    `;
  }

  /** @param {SettingBody} setting @param {string} id */
  #typing(setting, id) {
    const shown = this.typed ?? setting.written ?? "";
    return html`<input
      id=${id}
      .value=${live(shown)}
      placeholder=${setting.default}
      maxlength="200"
      autocomplete="off"
      autocapitalize="off"
      spellcheck="false"
      inputmode=${setting.kind === "number" ? "decimal" : nothing}
      aria-invalid=${this.faults.length ? "true" : nothing}
      aria-describedby=${this.#described(id)}
      @input=${(/** @type {Event} */ event) => this.#type(/** @type {HTMLInputElement} */ (event.target).value)}
    />`;
  }

  /** @param {SettingBody} setting @param {string} id */
  #choosing(setting, id) {
    const shown = this.typed ?? setting.written ?? "";
    return html`<select
      id=${id}
      .value=${live(shown)}
      aria-invalid=${this.faults.length ? "true" : nothing}
      aria-describedby=${this.#described(id)}
      @change=${(/** @type {Event} */ event) => this.#type(/** @type {HTMLSelectElement} */ (event.target).value)}
    >
      ${setting.needed ? nothing : html`<option value="" ?selected=${shown === ""}>${words(setting.default) || "not said"}</option>`}
      ${setting.choices.filter((each) => setting.needed || each !== setting.default || each === shown).map((each) => html`<option value=${each} ?selected=${shown === each}>${words(each)}</option>`)}
    </select>`;
  }

  /** @param {string} id */
  #described(id) {
    return this.faults.length ? `${id}-fault ${id}-about` : `${id}-about`;
  }

  /** The unit of a bare number, where one is written. @param {SettingBody} setting */
  #unit({ unit, written }) {
    return unit && /^[\d\s.,/+-]+$/.test(this.typed ?? written ?? "") ? html` <small class="unit">${unit}</small>` : nothing;
  }

  /** @param {string} text */
  #type(text) {
    const { setting } = this;
    if (setting) this.#tell("type-setting", { field: setting.field, path: setting.path, text, written: setting.written ?? "" });
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}

/** What puts a setting back. @param {SettingBody} setting */
function back(setting) {
  return setting.default ? `Back to ${words(setting.default)}` : "Say nothing of it";
}

/** A choice as it is said. @param {string} choice */
function words(choice) {
  return choice === "true" ? "yes" : choice === "false" ? "no" : choice;
}
