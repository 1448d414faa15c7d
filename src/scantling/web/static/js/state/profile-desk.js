/**
 * Shops or rooms that are kept, and the one that is on show. What is typed is kept in this browser until it is kept
 * there; what the server refuses stays typed, with the reason.
 */

import { Refused } from "../api/plan.js";
import { askKept, askKeptVersions, beginKept, changeKept, openKept, putAway } from "../api/profiles.js";
import { belongs } from "../lib/faults.js";
import { forget, keep, recall } from "../lib/this-browser.js";
import { outsideLists, withoutEntry } from "../lib/typed.js";

/** @typedef {import("../profile-types.js").Kind} Kind */
/** @typedef {import("../profile-types.js").DeskState} DeskState */
/** @typedef {import("../profile-types.js").Typed} Typed */
/** @typedef {Parameters<typeof changeKept>[2]} What */

const LET_GO = "The list has changed: what you typed in its entries is let go.";
/** After these every entry has the place it had, or those behind it are followed. @type {ReadonlySet<What>} */
const IN_PLACE = new Set(["settings", "machines", "entries", "entries/remove", "air"]);

export class ProfileDesk {
  /** What is on its way to be kept. @type {readonly Typed[]} */
  #sent = [];

  /**
   * @param {Kind} kind
   * @param {(state: DeskState) => void} listen
   */
  constructor(kind, listen) {
    this.kind = kind;
    this.listen = listen;
    /** @type {DeskState} */
    this.state = Object.freeze({ loaded: false, kept: [], opened: null, typed: {}, held: true, faults: [], versions: [], busy: false, said: "" });
  }

  /** Look what there is, and open one: the one asked for, or the first. @param {number} [wanted] */
  async look(wanted = 0) {
    await this.#trying(async () => {
      const kept = await askKept(this.kind);
      this.#set({ kept, loaded: true });
      const one = kept.find((each) => each.number === wanted) ?? kept[0];
      if (one) await this.#open(one.number);
      else this.#set({ opened: null, versions: [], typed: {} });
    });
    this.#set({ loaded: true });
  }

  /** @param {number} number */
  async open(number) {
    await this.#trying(() => this.#open(number));
  }

  /** @param {{text?: string, like?: number, known?: string, name?: string}} fresh */
  async begin(fresh) {
    await this.#trying(async () => {
      const opened = await beginKept(this.kind, fresh);
      this.#set({ kept: await askKept(this.kind) });
      await this.#take(opened, `Kept as ${opened.profile.name}.`);
    });
  }

  /** A space at its end counts as typed, for more may come behind it. @param {string} field @param {Typed} typed @param {string} written as it is kept */
  type(field, typed, written) {
    const { [field]: _, ...others } = this.state.typed;
    const changed = typed.text !== written || this.#sent.some((one) => samePlace(one, typed));
    const faults = this.state.faults.filter((each) => !belongs(each.field, field));
    this.#set({ typed: changed ? { ...others, [field]: typed } : others, faults, said: "" });
    this.#remember();
  }

  letGo() {
    forget(this.#place);
    this.#set({ typed: {}, faults: [], said: "" });
  }

  /** Keep all that is typed, as one version; what is typed while it is on its way stays typed. */
  async keep() {
    const changes = Object.values(this.state.typed);
    if (!changes.length) return;
    const count = changes.length === 1 ? "1 setting" : `${changes.length} settings`;
    this.#sent = changes;
    try {
      await this.#change("settings", { changes }, `${count} kept.`);
    } finally {
      this.#sent = [];
    }
  }

  /**
   * Change one thing at once; what else is typed stays typed.
   *
   * @param {What} what
   * @param {Record<string, unknown>} change
   * @param {string} said
   */
  async change(what, change, said) {
    return this.#change(what, change, said);
  }

  async putAway() {
    const number = this.state.opened?.profile.number;
    if (!number) return;
    await this.#trying(async () => {
      const { name } = await putAway(this.kind, number, true);
      await this.look();
      this.#set({ said: `${name} is put away; pieces keep their copies.` });
    });
  }

  get #place() {
    return `typed ${this.kind} ${this.state.opened?.profile.number ?? 0}`;
  }

  /** @param {What} what @param {Record<string, unknown>} change @param {string} said @returns {Promise<boolean>} whether it was done */
  async #change(what, change, said) {
    const profile = this.state.opened?.profile;
    if (!profile) return false;
    return this.#trying(async () => {
      const { number, version, name } = profile;
      const opened = await changeKept(this.kind, number, what, { ...change, parent: version });
      if (opened.profile.name !== name) this.#set({ kept: await askKept(this.kind) });
      if (what === "entries/remove") this.#set({ typed: withoutEntry(this.state.typed, /** @type {any} */ (change).path) });
      if (what === "settings") this.#kept(/** @type {any} */ (change).changes);
      const told = IN_PLACE.has(what) ? "" : this.#onOther(opened.profile.version);
      await this.#take(opened, told ? `${said} ${told}` : said, { remembers: true });
    });
  }

  /** What was sent is kept; what was typed since, or elsewhere, is not. @param {readonly Typed[]} sent */
  #kept(sent) {
    this.#sent = [];
    const since = Object.entries(this.state.typed).filter(([, one]) => !sent.some((each) => each.text === one.text && samePlace(each, one)));
    this.#set({ typed: Object.fromEntries(since) });
  }

  /** Another version comes: what is typed below a list was meant for this one's. @param {number} version @returns {string} what to say of it */
  #onOther(version) {
    if (version === this.state.opened?.profile.version) return "";
    const typed = outsideLists(this.state.typed);
    const gone = Object.keys(typed).length < Object.keys(this.state.typed).length;
    this.#set({ typed });
    return gone ? LET_GO : "";
  }

  #remember() {
    const { opened, typed } = this.state;
    const any = Object.keys(typed).length > 0;
    const held = !any || keep(this.#place, { version: opened?.profile.version ?? 0, typed });
    if (!any) forget(this.#place);
    if (held !== this.state.held) this.#set({ held });
  }

  /** @param {number} number */
  async #open(number) {
    await this.#take(await openKept(this.kind, number), "", { recalls: true });
  }

  /** What was typed here before is here again; at once, for from now on more may be typed. */
  #recall() {
    const { version, typed: found } = typedAt(this.#place);
    const typed = version === this.state.opened.profile.version ? found : outsideLists(found);
    const gone = Object.keys(typed).length < Object.keys(found).length;
    const again = Object.keys(typed).length ? "What you typed and had not kept is here again." : "";
    this.#set({ typed, said: [again, gone ? LET_GO : ""].filter(Boolean).join(" ") });
    this.#remember();
  }

  /** @param {any} opened @param {string} said @param {{remembers?: boolean, recalls?: boolean}} [more] whether what is typed is of this version by now */
  async #take(opened, said, { remembers = false, recalls = false } = {}) {
    const other = opened.profile.number !== this.state.opened?.profile.number;
    this.#set({ opened, said, ...(other ? { typed: {} } : {}) });
    if (remembers) this.#remember();
    if (recalls) this.#recall();
    history.replaceState(null, "", `?of=${opened.profile.number}`);
    this.#set({ versions: await askKeptVersions(this.kind, opened.profile.number) });
  }

  /** @param {() => Promise<unknown>} work @returns {Promise<boolean>} whether it was done */
  async #trying(work) {
    this.#set({ busy: true, faults: [] });
    try {
      await work();
      return true;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.#set({ faults: error.faults, said: "" });
      if ("current" in error.body && this.state.opened) await this.#again(this.state.opened.profile.number);
      return false;
    } finally {
      this.#set({ busy: false });
    }
  }

  /** It was changed elsewhere: show it as it is now; what is typed here stays typed, but in lists. @param {number} number */
  async #again(number) {
    const { faults } = this.state;
    try {
      const opened = await openKept(this.kind, number);
      const said = this.#onOther(opened.profile.version);
      this.#set({ opened, faults, said });
      this.#remember();
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
    }
  }

  /** @param {Partial<DeskState>} patch */
  #set(patch) {
    this.state = Object.freeze({ ...this.state, ...patch });
    this.listen(this.state);
  }
}

/**
 * Show a desk in a document: its state goes down to an element, that element's events come up.
 *
 * @param {Kind} kind
 * @param {HTMLElement & {state: DeskState | null}} element
 */
export function wire(kind, element) {
  const desk = new ProfileDesk(kind, (state) => {
    element.state = state;
  });
  on("type-setting", ({ field, path, text, written }) => desk.type(field, { path, text }, written));
  on("put-back", ({ field, path, label }) => {
    desk.type(field, { path, text: "" }, "");
    void desk.change("settings", { changes: [{ path, text: "" }] }, `${label}: back to its default.`);
  });
  on("keep-typed", () => void desk.keep().then(() => toFault(element)));
  on("let-go", () => desk.letGo());
  on("open-kept", (number) => void desk.open(number));
  on("begin-kept", (fresh) => void desk.begin(fresh).then(() => scrollTo({ top: 0 })));
  on("step-kept", (way) => void desk.change(way, {}, way === "undo" ? "Undone." : "Done again."));
  on("restore", (version) => void desk.change("restore", { version }, `Version ${version} is back.`));
  on("put-away", () => void desk.putAway());
  on("change-kept", ({ what, change, said, done }) => void desk.change(what, change, said).then((kept) => kept && done?.()));
  void desk.look(Number(new URLSearchParams(location.search).get("of") ?? 0));
}

/** Lead to the first field that is refused. @param {HTMLElement} element */
function toFault(element) {
  requestAnimationFrame(() => {
    const field = element.querySelector("[aria-invalid=true]");
    if (field instanceof HTMLElement) field.focus();
  });
}

/** @param {string} name @param {(detail: any) => void} action */
function on(name, action) {
  document.addEventListener(name, (event) => action(/** @type {CustomEvent} */ (event).detail));
}

/** @param {Typed} one @param {Typed} other */
function samePlace(one, other) {
  return one.path.length === other.path.length && one.path.every((step, at) => step === other.path[at]);
}

/** @param {string} place @returns {{version: number, typed: Record<string, Typed>}} the version 0 where none is told */
function typedAt(place) {
  const found = recall(place) ?? {};
  const told = typeof found.version === "number";
  const sound = Object.entries((told ? found.typed : found) ?? {}).filter(([, typed]) => Array.isArray(typed?.path) && typeof typed?.text === "string");
  return { version: told ? found.version : 0, typed: Object.fromEntries(sound) };
}
