/**
 * A new part: what it is, of what, how big and where, drawn in the piece before it is kept.
 *
 * @fires preview-part detail: the piece with it, or null
 * @fires file-changed detail: the piece as it is kept then
 * @fires part-added   detail: its name
 *
 * Keyboard: Escape puts the form away, with what is filled in kept for the next time; Enter in a field draws it with what is written there.
 */

import { LitElement, html, nothing } from "lit";
import { live } from "lit/directives/live.js";
import { askChoices, askPreview, keepPart, tryPart } from "../api/parts.js";
import { numberOf } from "../api/pieces.js";
import { Refused } from "../api/plan.js";
import { grouped } from "../lib/grouping.js";

/** @typedef {import("../types.js").State} State */
/** @typedef {import("../types.js").FaultView} FaultView */
/** @typedef {import("../part-types.js").SlotBody} SlotBody */
/** @typedef {import("../part-types.js").ChoiceBody} ChoiceBody */
/** @typedef {import("../part-types.js").PartNew} PartNew */

/** After so long without a key what is typed is drawn. [ms] */
const REST_MS = 500;
/** Which part and face it stands at: another part picked says it anew. */
const OF_PARTS = ["part", "face", "other", "other_face"];
/** @type {PartNew} */
const NOTHING_SAID = { kind: "stick", name: "", species: "", way: "on", at: "", typed: {} };

export class PartNewForm extends LitElement {
  /** @override */
  static properties = { version: { attribute: false }, open: { state: true }, said: { state: true }, tried: { state: true }, faults: { state: true }, busy: { state: true } };

  #number = numberOf(location.pathname);
  /** @type {State | null} */
  #state = null;
  /** @type {import("../part-types.js").PartChoices | null} */
  #choices = null;
  #asked = 0;
  /** What was asked about last, as text. */
  #drawn = "";
  #resting = 0;
  /** @type {Promise<void>} */
  #trying = Promise.resolve();
  #keeping = false;

  constructor() {
    super();
    this.version = 0;
    this.open = false;
    this.said = NOTHING_SAID;
    /** @type {import("../part-types.js").PartTried | null} */
    this.tried = null;
    /** @type {FaultView[]} */
    this.faults = [];
    this.busy = false;
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @param {State} state */
  set state(state) {
    const [chosen, before, shape] = [state.chosen, this.#state?.chosen ?? "", this.#state?.shape];
    this.#state = state;
    this.version = state.kept?.version ?? 0;
    const known = state.shape?.parts.some((part) => part.name === chosen);
    if (this.open && chosen && chosen !== before && known) this.#near(chosen);
    else if (this.open && shape !== state.shape) void this.#try(); // other sizes are on show
  }

  /** @override */
  render() {
    if (!this.#number || !this.version) return nothing;
    if (!this.open) return html`<button type="button" class="key" aria-expanded="false" @click=${() => void this.begin()}>Add a part</button>`;
    const { tried, faults } = this;
    const whole = faults.filter((each) => !this.#isShown(each.field));
    return html`<form class="new-part" aria-label="A new part" novalidate @submit=${(/** @type {Event} */ event) => void this.#keep(event)} @keydown=${(/** @type {KeyboardEvent} */ event) => this.#key(event)}>
      <h2 tabindex="-1">A new part</h2>
      ${this.#field("kind", "What it is", this.#choose("kind", this.said.kind, this.#choices?.kinds ?? []))}
      ${this.#field("name", "Name", html`<input id="new-name" autocomplete="off" placeholder=${tried?.name.replaceAll("_", " ") ?? ""} .value=${live(this.said.name)} aria-describedby="new-name-fault" aria-invalid=${this.#invalid("name")} @input=${(/** @type {Event} */ event) => this.#say({ name: valueOf(event) }, REST_MS)} @change=${() => this.#say({})} />`)}
      ${this.#field("species", this.said.kind === "sheet" ? "Material" : "Wood", this.#wood())}
      ${this.#field("way", "It stands", this.#choose("way", this.said.way, this.#choices?.ways ?? []))}
      ${grouped(tried?.slots ?? []).map(([group, slots]) => html`<fieldset><legend>${group}</legend>${slots.map((slot) => this.#slot(slot))}</fieldset>`)}
      ${whole.length ? html`<div class="fault" role="alert">${whole.map((each) => html`<p>${told(each)}</p>`)}</div>` : nothing}
      <p class="meets" role="status" data-was=${tried?.meets ?? ""}><span>${this.busy ? "Drawing it ..." : (tried?.meets ?? "")}</span></p>
      ${tried?.entry ? html`<details><summary>As it will be written</summary><pre tabindex="0" aria-label="Its entry in the piece file">${tried.entry}</pre></details>` : nothing}
      <div class="ways">
        <button class="key main">Keep this part</button>
        <button type="button" class="key quiet" @click=${() => this.#away()}>Put it away</button>
      </div>
    </form>`;
  }

  /** @param {string} name @param {string} label @param {unknown} control @param {string} [result] */
  #field(name, label, control, result = "") {
    const fault = this.faults.find((each) => each.field === name);
    return html`<div class="row" ?data-faulty=${fault !== undefined}>
      <label for="new-${name}">${label}</label>
      <div class="dial">${control}${result ? html`<span class="result">= ${result}</span>` : nothing}</div>
      <p class="fault" id="new-${name}-fault" role="alert">${fault ? told(fault) : ""}</p>
    </div>`;
  }

  /** @param {"kind" | "way"} name @param {string} value @param {ChoiceBody[]} choices */
  #choose(name, value, choices) {
    const said = (/** @type {Event} */ event) => this.#say(name === "kind" ? { kind: valueOf(event), species: "", typed: this.#placesOnly() } : { way: valueOf(event), typed: {} });
    return html`<select id="new-${name}" @change=${said}>
      ${choices.map((each) => html`<option value=${each.value} ?selected=${each.value === value}>${each.label}</option>`)}
    </select>`;
  }

  #wood() {
    const known = this.said.kind === "sheet" ? this.#choices?.sheets : this.#choices?.woods;
    return html`<input id="new-species" list="new-woods" autocomplete="off" placeholder=${this.tried?.species ?? ""} .value=${live(this.said.species)} aria-describedby="new-species-fault" aria-invalid=${this.#invalid("species")} @input=${(/** @type {Event} */ event) => this.#say({ species: valueOf(event) }, REST_MS)} @change=${() => this.#say({})} />
      <datalist id="new-woods">${known?.map((each) => html`<option value=${each}></option>`)}</datalist>`;
  }

  /** @param {SlotBody} slot */
  #slot({ name, label, text: answered, choices, result }) {
    const text = this.said.typed[name] ?? answered; // what was typed stays while it is asked about
    if (choices.length) {
      const said = (/** @type {Event} */ event) => this.#choice(name, valueOf(event));
      const options = choices.map((each) => html`<option value=${each.value} .selected=${live(each.value === text)}>${each.label}</option>`);
      return this.#field(name, label, html`<select id="new-${name}" aria-describedby="new-${name}-fault" aria-invalid=${this.#invalid(name)} @change=${said}>${options}</select>`);
    }
    const bare = text !== answered || !/[a-z(+*/]/.test(text);
    return this.#field(name, label, html`<input id="new-${name}" autocomplete="off" spellcheck="false" .value=${live(text)} aria-describedby="new-${name}-fault" aria-invalid=${this.#invalid(name)} @input=${(/** @type {Event} */ event) => this.#say({ typed: { ...this.said.typed, [name]: valueOf(event) } }, REST_MS)} @change=${() => this.#left(name)} />`, bare ? "" : result);
  }

  /** @param {string} name */
  #invalid(name) {
    return String(this.faults.some((each) => each.field === name));
  }

  /** Whether a fault stands beside a field. @param {string} field */
  #isShown(field) {
    return ["name", "species"].includes(field) || this.tried?.slots.some((slot) => slot.name === field) === true;
  }

  /** What is typed of it, without its size: another kind has another. */
  #placesOnly() {
    return Object.fromEntries(Object.entries(this.said.typed).filter(([name]) => !["width", "thickness", "width_toward", "along"].includes(name)));
  }

  /** Ask for a part at the one that is picked; what was said before and not kept stays said. */
  async begin() {
    const { said, open } = this;
    const chosen = this.#state?.chosen ?? "";
    this.open = true;
    if (chosen && chosen !== (said.typed["part"] ?? said.at)) this.#near(chosen);
    else if (!open) void this.#try();
    await this.updateComplete;
    this.querySelector("h2")?.focus(); // before anything can be typed: later it would take the focus from there
    this.#choices ??= await askChoices(this.#number).catch(() => null);
    this.requestUpdate();
  }

  /** @param {string} part */
  #near(part) {
    const typed = Object.fromEntries(Object.entries(this.said.typed).filter(([name]) => !OF_PARTS.includes(name)));
    this.#say({ at: part, typed });
  }

  /** A field was left: emptied, what is usual comes back. @param {string} name */
  #left(name) {
    const typed = { ...this.said.typed };
    if (!typed[name]?.trim()) delete typed[name];
    this.#say({ typed });
  }

  /** @param {string} name @param {string} text */
  #choice(name, text) {
    const typed = { ...this.said.typed, [name]: text };
    // another part has other faces, and is found another one across from it
    if (name === "part") for (const each of ["face", "other", "other_face"]) delete typed[each];
    if (name === "face") for (const each of ["other", "other_face"]) delete typed[each];
    if (name === "other") delete typed["other_face"];
    this.#say({ typed });
  }

  /** Say more of it; it is drawn at once, or when nothing more is typed for a moment. @param {Partial<PartNew>} more @param {number} [restMs] */
  #say(more, restMs = 0) {
    this.said = { ...this.said, ...more };
    clearTimeout(this.#resting);
    if (restMs) this.#resting = setTimeout(() => this.#say({}), restMs);
    else if (JSON.stringify(this.said) !== this.#drawn) void this.#try();
  }

  /** Ask what it comes to now; an older question is given up. */
  #try() {
    this.#trying = this.#asking();
    return this.#trying;
  }

  async #asking() {
    const asked = ++this.#asked;
    this.#drawn = JSON.stringify(this.said);
    this.busy = true;
    try {
      const tried = await tryPart(this.#number, this.said, this.version);
      if (asked !== this.#asked) return;
      [this.tried, this.faults] = [tried, tried.errors];
      const preview = tried.draft ? await askPreview(tried, this.#state?.given ?? {}) : null;
      if (asked === this.#asked && this.open) this.#tell("preview-part", preview);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (asked === this.#asked) this.faults = error.faults;
    } finally {
      if (asked === this.#asked) this.busy = false;
    }
  }

  /** @param {Event} event */
  async #keep(event) {
    event.preventDefault();
    if (this.#keeping) return; // tapped twice
    this.#keeping = true;
    try {
      this.#say({}); // what is still being typed is asked about
      await this.#answered();
      const { tried } = this;
      if (tried?.draft && !this.faults.length) await this.#kept(tried);
    } finally {
      this.#keeping = false;
    }
    await this.updateComplete;
    /** @type {HTMLElement | null} */ (this.querySelector("[aria-invalid=true]"))?.focus();
  }

  /** Wait for the answer to what was asked last: it may be asked anew while an answer is waited for. */
  async #answered() {
    /** @type {Promise<void> | undefined} */
    let waited;
    while (waited !== this.#trying) await (waited = this.#trying);
  }

  /** @param {import("../part-types.js").PartTried} tried */
  async #kept(tried) {
    this.busy = true;
    try {
      const opened = await keepPart(this.#number, { ...this.said, name: this.said.name || tried.name }, this.version);
      this.open = false;
      this.#asked += 1; // an answer still on its way is of a part that is kept by now
      [this.said, this.tried, this.#drawn] = [NOTHING_SAID, null, ""];
      this.#tell("part-added", tried.name);
      this.#tell("file-changed", opened);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.faults = "theirs" in error.body ? [{ .../** @type {FaultView} */ (error.faults[0]), field: "", rule: "was saved elsewhere meanwhile", remedy: "Reload the page." }] : error.faults;
    } finally {
      this.busy = false;
    }
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const field = /** @type {HTMLElement} */ (event.target);
    if (event.key === "Escape") {
      event.stopPropagation();
      this.#away();
    } else if (event.key === "Enter" && field instanceof HTMLInputElement) {
      event.preventDefault(); // what is written is drawn first; the key keeps it
      this.#say({});
    }
  }

  #away() {
    clearTimeout(this.#resting);
    this.#asked += 1;
    this.busy = false;
    this.open = false;
    this.#tell("preview-part", null);
    void this.updateComplete.then(() => this.querySelector("button")?.focus());
  }

  /** @param {string} event @param {unknown} detail */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}

/** @param {Event} event */
function valueOf(event) {
  return /** @type {HTMLInputElement | HTMLSelectElement} */ (event.target).value;
}

/** @param {FaultView} fault */
function told({ rule, value, remedy }) {
  return `It ${rule}${value ? `, got ${value}` : ""}. ${remedy}`.trim();
}
