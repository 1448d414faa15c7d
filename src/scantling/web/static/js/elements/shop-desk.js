/**
 * A shop by chapters: machines, cutters, clamps, glue, allowances, rates and the rest, each setting with its default.
 *
 * @fires keep-typed, let-go, begin-kept, change-kept detail: {what, change, said}
 */

import { LitElement, html, nothing } from "lit";
import { live } from "lit/directives/live.js";
import { repeat } from "lit/directives/repeat.js";
import { apartFrom, faultsApart, settingFields, typedBar } from "./setting-parts.js";

/** @typedef {import("../profile-types.js").DeskState} DeskState */
/** @typedef {import("../profile-types.js").ChapterBody} ChapterBody */
/** @typedef {import("../profile-types.js").SectionBody} SectionBody */
/** @typedef {import("../profile-types.js").AddingBody} AddingBody */
/** @typedef {import("../profile-types.js").SettingBody} SettingBody */

export class ShopDesk extends LitElement {
  /** @override */
  static properties = { state: { attribute: false }, sought: { state: true }, onlySet: { state: true } };

  constructor() {
    super();
    /** @type {DeskState | null} */
    this.state = null;
    this.sought = "";
    this.onlySet = false;
    /** @type {Set<string>} folds that stand open */
    this.opened = new Set(["shop", "machines"]);
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  render() {
    const { state } = this;
    if (!state?.loaded) return html`<p class="said" role="status">Looking ...</p>`;
    if (!state.opened) return this.#none(state);
    /** @type {ChapterBody[]} */
    const chapters = state.opened.chapters;
    const settings = chapters.flatMap((chapter) => chapter.sections.flatMap((section) => section.settings));
    const apart = apartFrom(settings, state);
    const lists = chapters.flatMap((chapter) => chapter.adding.map((adding) => adding.path.join(".")));
    return html`
      <profile-bar kind="shops" .state=${state}></profile-bar>
      ${faultsApart(apart.filter((fault) => !lists.some((list) => fault.field.startsWith(`${list}[`) || fault.field === list || fault.field.startsWith(`${list}.`))))}
      <div class="seek">
        <label>Find a setting <input type="search" .value=${this.sought} @input=${(/** @type {Event} */ event) => (this.sought = /** @type {HTMLInputElement} */ (event.target).value)} /></label>
        <button type="button" class="key" aria-pressed=${String(this.onlySet)} @click=${() => (this.onlySet = !this.onlySet)}>Only what is set</button>
      </div>
      <form @submit=${(/** @type {SubmitEvent} */ event) => this.#submit(event)} novalidate>
        ${repeat(chapters, (chapter) => `${state.opened.profile.number} ${chapter.name}`, (chapter) => this.#chapter(chapter, state))}
        ${typedBar(state, () => this.#tell("let-go"))}
      </form>
      <profile-text kind="shops" .state=${state}></profile-text>
    `;
  }

  /** @param {DeskState} state */
  #none(state) {
    return html`
      ${faultsApart(state.faults)}
      <p class="none">No shop of your own is kept yet. Pieces are planned for the usual one-person shop.</p>
      <div class="ways">
        <button type="button" class="key main" ?disabled=${state.busy} @click=${() => this.#tell("begin-kept", {})}>Begin with the usual shop</button>
        <label class="key">Read in a file <input type="file" accept=".yaml,.yml" @change=${(/** @type {Event} */ event) => this.#file(event)} /></label>
      </div>
    `;
  }

  /** @param {ChapterBody} chapter @param {DeskState} state */
  #chapter(chapter, state) {
    const seeking = this.#seeking;
    const sections = chapter.sections
      .map((section) => ({ section, settings: section.settings.filter((setting) => this.#shown(section, setting, state)) }))
      .filter(({ section, settings }) => settings.length || (!seeking && (section.owned !== null || section.entry)));
    const faulty = sections.some(({ settings }) => settings.some((setting) => state.faults.some((fault) => fault.field.startsWith(setting.field))));
    if (!sections.length && (seeking || !chapter.adding.length)) return nothing;
    return html`<details class="fold chapter-fold" ?open=${seeking || faulty || this.opened.has(chapter.name)} @toggle=${(/** @type {Event} */ event) => this.#toggled(chapter.name, event)}>
      <summary>
        <h2 class="fold-title">${chapter.title}</h2>
        <span class="inside">${inside(chapter)}</span>
      </summary>
      <p class="lead">${chapter.about}</p>
      ${sections.map(({ section, settings }) => this.#section(section, settings, state))}
      ${seeking ? nothing : chapter.adding.map((adding) => this.#adding(adding, state, chapter))}
    </details>`;
  }

  /** @param {SectionBody} section @param {SettingBody} setting @param {DeskState} state */
  #shown(section, setting, state) {
    const typed = state.typed[setting.field] !== undefined;
    if (this.onlySet && setting.written === null && !typed) return false;
    const words = `${section.label} ${setting.label} ${setting.field.replaceAll("_", " ")}`.toLowerCase();
    return this.sought.toLowerCase().split(/\s+/).every((word) => words.includes(word));
  }

  /** @param {SectionBody} section @param {readonly SettingBody[]} settings @param {DeskState} state */
  #section(section, settings, state) {
    if (!section.label) return settingFields(settings, state);
    const id = `part-${section.path.join("-").replace(/[^\w]+/g, "-")}`;
    return html`<section class=${section.owned === false ? "part away" : "part"} aria-labelledby=${id}>
      <div class="part-head">
        <h3 id=${id}>${section.label}</h3>
        ${section.owned === null ? nothing : this.#owning(section, state)}
        ${section.entry
          ? html`<button type="button" class="key quiet" ?disabled=${state.busy} aria-label=${`Take out ${section.label}`} @click=${() => this.#change("entries/remove", { path: section.path }, `${section.label}: taken out.`)}>Take out</button>`
          : nothing}
      </div>
      ${section.about && section.owned !== false && section.about !== `${section.label}.` ? html`<p class="about-part">${section.about}</p>` : nothing}
      ${settings.length ? this.#limits(section, settings, state) : nothing}
    </section>`;
  }

  /** The settings of a machine or an entry, folded; of what stands for itself, open. @param {SectionBody} section @param {readonly SettingBody[]} settings @param {DeskState} state */
  #limits(section, settings, state) {
    const fields = settingFields(settings, state);
    if (section.owned === null && !section.entry) return fields;
    const at = settings.some(({ field }) => state.typed[field] !== undefined || state.faults.some((fault) => fault.field.startsWith(field)));
    const key = section.path.join(".");
    return html`<details class="fold part-fold" ?open=${at || this.#seeking || this.opened.has(key)} @toggle=${(/** @type {Event} */ event) => this.#toggled(key, event)}>
      <summary aria-label=${`${section.label}: ${held(section)}`}><span class="inside">${held(section)}</span></summary>
      ${fields}
    </details>`;
  }

  /** @param {SectionBody} section @param {DeskState} state */
  #owning(section, state) {
    const machine = String(section.path[1]);
    const owned = section.owned === true;
    const said = `${section.label}: ${owned ? "not here any more" : "here now"}.`;
    return html`<label class="owned">
      <input
        type="checkbox"
        aria-label=${`${section.label} in the shop`}
        .checked=${live(owned)}
        ?disabled=${state.busy}
        @change=${() => this.#change("machines", { machine, owned: !owned }, said)}
      />
      in the shop
    </label>`;
  }

  /** @param {AddingBody} adding @param {DeskState} state @param {ChapterBody} chapter */
  #adding(adding, state, chapter) {
    const list = adding.path.join(".");
    const settings = chapter.sections.flatMap((section) => section.settings);
    const wrong = apartFrom(settings, state).filter(({ field }) => field.startsWith(`${list}[`) || field === list || field.startsWith(`${list}.`));
    const id = `add-${adding.path.join("-")}`;
    return html`<details class="fold adding">
      <summary><span class="fold-title">Add: ${adding.label.toLowerCase()}</span></summary>
      ${adding.about ? html`<p class="about-part">${adding.about}</p>` : nothing}
      ${adding.known.length ? html`<p class="about-part">Known already: ${adding.known.join(", ")}.</p>` : nothing}
      <div class="settings new" id=${id}>
        ${adding.named ? html`<div class="new-field"><label for=${`${id}-name`}>${adding.named}</label><input id=${`${id}-name`} data-name maxlength="200" /></div>` : nothing}
        ${adding.settings.map((setting) => newField(setting, id))}
      </div>
      ${faultsApart(wrong)}
      <button type="button" class="key" ?disabled=${state.busy} @click=${() => this.#add(adding, id)}>Add it</button>
    </details>`;
  }

  /** @param {AddingBody} adding @param {string} id */
  #add(adding, id) {
    const inputs = [.../** @type {NodeListOf<HTMLInputElement | HTMLSelectElement>} */ (this.querySelectorAll(`#${id} [data-key]`))];
    const name = /** @type {HTMLInputElement | null} */ (this.querySelector(`#${id} [data-name]`));
    const fields = Object.fromEntries(inputs.map((input) => [input.dataset["key"] ?? "", input.value.trim()]).filter(([, text]) => text));
    const sent = [...inputs, name].flatMap((input) => (input instanceof HTMLInputElement ? [{ input, text: input.value }] : []));
    const done = () => sent.forEach(({ input, text }) => input.value === text && (input.value = "")); // what is typed since stays
    this.#change("entries", { path: adding.path, name: name?.value ?? "", fields }, `${adding.label}: added.`, done);
  }

  get #seeking() {
    return this.sought.trim() !== "" || this.onlySet;
  }

  /** A fold stays as it was left; those a search opens close again with it. @param {string} key @param {Event} event */
  #toggled(key, event) {
    if (this.#seeking || event.target !== event.currentTarget) return;
    if (/** @type {HTMLDetailsElement} */ (event.target).open) this.opened.add(key);
    else this.opened.delete(key);
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

  /** @param {string} what @param {Record<string, unknown>} change @param {string} said @param {() => void} [done] */
  #change(what, change, said, done) {
    this.#tell("change-kept", { what, change, said, done });
  }

  /** @param {string} event @param {unknown} [detail] */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}

/** A field of an entry that is to be added. @param {SettingBody} setting @param {string} id */
function newField(setting, id) {
  const own = `${id}-${setting.field.replace(/[^\w]+/g, "-")}`;
  const label = setting.needed ? setting.label : `${setting.label} (${setting.default || "may be left out"})`;
  return html`<div class="new-field">
    <label for=${own}>${label}</label>
    ${setting.choices.length
      ? html`<select id=${own} data-key=${String(setting.path.at(-1))}>
          ${setting.needed ? nothing : html`<option value="">${setting.default}</option>`} ${setting.choices.map((each) => html`<option value=${each}>${each}</option>`)}
        </select>`
      : html`<input id=${own} data-key=${String(setting.path.at(-1))} placeholder=${setting.default} maxlength="200" autocomplete="off" />`}
    ${setting.about ? html`<p class="about-it">${setting.about}</p>` : nothing}
  </div>`;
}

/** What is set of a machine or an entry, in a few words. @param {SectionBody} section */
function held(section) {
  const told = section.settings.filter(({ written }) => section.entry || written !== null).slice(0, 4);
  const words = told.map(({ label, written, default: usual, unit }) => {
    const value = written ?? usual;
    const bare = unit && /^[\d\s.,/]+$/.test(value) ? ` ${unit}` : "";
    return value ? `${label.toLowerCase()} ${value}${bare}` : "";
  });
  return words.filter(Boolean).join(" · ") || "all at their defaults";
}

/** What is in a chapter, in a few words. @param {ChapterBody} chapter */
function inside(chapter) {
  const settings = chapter.sections.flatMap((section) => section.settings);
  const set = settings.filter((setting) => setting.written !== null).length;
  const machines = chapter.sections.filter((section) => section.owned !== null);
  const here = machines.filter((section) => section.owned).map((section) => section.label.toLowerCase());
  const entries = chapter.sections.filter((section) => section.entry).map((section) => section.label);
  const words = [set ? `${set} set` : "", ...(machines.length ? [here.join(", ") || "none: hand tools"] : []), ...entries];
  return words.filter(Boolean).join(" · ") || "all at their defaults";
}
