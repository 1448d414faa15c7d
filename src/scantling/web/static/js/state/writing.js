/**
 * The files of a piece while they are written. What is typed is kept in this browser until it is saved, so that a
 * closed window loses nothing; a save made elsewhere meanwhile is never written over.
 */

import { Refused } from "../api/plan.js";
import { askVersions, layDown, openPiece, restoreVersion, savePiece, stepPiece } from "../api/pieces.js";
import { later } from "../lib/later.js";

/** @typedef {import("../types.js").Content} Content */
/** @typedef {import("../types.js").PieceOpen} PieceOpen */
/** @typedef {import("../types.js").WritingState} WritingState */

const REST_MS = 350;

export class Writing {
  /**
   * @param {number} number of the piece
   * @param {(state: WritingState) => void} listen
   */
  constructor(number, listen) {
    this.number = number;
    this.listen = listen;
    /** @type {WritingState} */
    this.state = Object.freeze({
      piece: null,
      saved: null,
      content: null,
      changed: false,
      draft: "",
      faults: [],
      refused: [],
      clash: null,
      versions: [],
      busy: false,
      said: "",
      entries: [],
      fresh: [],
      dropped: null,
    });
    this.look = later(() => void this.asIs(), REST_MS);
  }

  get #place() {
    return placeOf(this.number);
  }

  /** Open the piece, with what was typed here and not saved. */
  async open() {
    await this.trying(async () => {
      const opened = await openPiece(this.number);
      const typed = readTyped(this.#place);
      this.take(opened, "");
      if (!typed) return;
      // typed from an older version it goes on from there: a save tells what both have
      this.set({ piece: { ...opened.piece, version: typed.version } });
      this.type(typed.content);
      this.set({ said: "What you typed and had not saved is here again." });
    });
    await this.asIs();
  }

  /** @param {"piece" | "shop" | "rack" | "room" | "bench"} what @param {string} text */
  change(what, text) {
    const { content } = this.state;
    if (!content) return;
    if (what === "piece") this.type({ ...content, piece: text });
    else this.type({ ...content, [what]: { name: content[what]?.name ?? what, text } });
    this.look();
  }

  /** @param {{what: "shop" | "rack" | "room" | "bench", name: string, text: string | null}} file */
  attach({ what, name, text }) {
    if (!this.state.content) return;
    this.type({ ...this.state.content, [what]: { name, text } });
    void this.asIs();
  }

  /** @param {"shop" | "rack" | "room" | "bench"} what */
  detach(what) {
    if (!this.state.content) return;
    this.type({ ...this.state.content, [what]: null });
    void this.asIs();
  }

  /** @param {string} why */
  async save(why) {
    const { content, piece, changed } = this.state;
    if (!content || !piece || !changed) return;
    await this.#saving(content, piece.version, why || "Written by hand");
  }

  /** @param {Content} content @param {number} parent @param {string} why */
  async #saving(content, parent, why) {
    await this.trying(async () => {
      const saved = await savePiece(this.number, content, parent, why);
      const typed = this.state.content;
      this.take(saved, "Saved.");
      if (typed && typed !== content) this.type(typed); // while it was on its way
    });
  }

  /** @param {"undo" | "redo"} way */
  async step(way) {
    const { piece } = this.state;
    if (!piece) return;
    await this.trying(async () => {
      const opened = await stepPiece(this.number, way, piece.version);
      this.take(opened, `Version ${opened.piece.version} is the current one.`);
    });
    await this.asIs();
  }

  /** @param {number} version */
  async restore(version) {
    const { piece } = this.state;
    if (!piece) return;
    await this.trying(async () => {
      this.take(await restoreVersion(this.number, version, piece.version), `Version ${version} is back.`);
    });
    await this.asIs();
  }

  /**
   * Go on after a save made elsewhere: with both changes, with theirs, or with yours over theirs.
   *
   * @param {"merged" | "theirs" | "yours"} way
   */
  async settle(way) {
    const { clash } = this.state;
    const content = clash?.[way];
    if (!clash || !content) return;
    this.set({ clash: null });
    if (way === "theirs") {
      await this.trying(async () => this.take(await openPiece(this.number), "The other version is here now."));
      await this.asIs();
      return;
    }
    await this.#saving(content, clash.current, way === "merged" ? "Both changes brought together" : "Mine over the other");
    await this.asIs();
  }

  /** What is wrong with what is typed, and how it would look. */
  async asIs() {
    const { content } = this.state;
    if (!content) return;
    try {
      const { draft, errors } = await layDown(content);
      if (content === this.state.content) this.set({ draft, faults: errors });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.set({ faults: error.faults });
    }
  }

  /** What is typed from now on; kept in this browser until it is saved. @param {Content} content */
  type(content) {
    const changed = JSON.stringify(content) !== JSON.stringify(this.state.saved);
    this.set({ content, changed, said: "" });
    keepTyped(this.#place, changed ? { content, version: this.state.piece?.version ?? 0 } : null);
  }

  /** What is saved, with nothing typed over it. @param {PieceOpen} opened @param {string} said */
  take({ piece, content }, said) {
    keepTyped(this.#place, null);
    this.set({ piece, content, saved: content, changed: false, clash: null, refused: [], said });
    this.askVersions();
  }

  askVersions() {
    void askVersions(this.number).then(
      (versions) => this.set({ versions }),
      () => undefined,
    );
  }

  /** @param {() => Promise<void>} work */
  async trying(work) {
    this.set({ busy: true, refused: [] });
    try {
      await work();
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      const body = /** @type {any} */ (error.body);
      const clash = body.theirs ? { current: body.current, merged: body.merged, theirs: body.theirs, yours: body.yours, lines: body.clashes } : null;
      this.set({ refused: error.faults, clash });
    } finally {
      this.set({ busy: false });
    }
  }

  /** @param {Partial<WritingState>} patch */
  set(patch) {
    this.state = Object.freeze({ ...this.state, ...patch });
    this.listen(this.state);
  }
}

/** Whether something typed in this browser waits to be saved. @param {number} number of the piece */
export function keepsTyped(number) {
  return readTyped(placeOf(number)) !== null;
}

/** @param {number} number */
function placeOf(number) {
  return `text ${number}`;
}

/** @param {string} place @returns {{content: Content, version: number} | null} */
function readTyped(place) {
  try {
    const found = JSON.parse(localStorage.getItem(place) ?? "null");
    return found && typeof found.content?.piece === "string" && Number.isInteger(found.version) ? found : null;
  } catch {
    return null;
  }
}

/** @param {string} place @param {{content: Content, version: number} | null} typed */
function keepTyped(place, typed) {
  try {
    if (typed) localStorage.setItem(place, JSON.stringify(typed));
    else localStorage.removeItem(place);
  } catch {
    // storage may be switched off: what is typed then lasts as long as the page
  }
}
