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
    });
    this.look = later(() => void this.#look(), REST_MS);
  }

  get #place() {
    return `text ${this.number}`;
  }

  /** Open the piece, with what was typed here and not saved. */
  async open() {
    await this.#trying(async () => {
      const opened = await openPiece(this.number);
      const typed = readTyped(this.#place, opened.piece.version);
      this.#take(opened, typed ? "What you typed and had not saved is here again." : "");
      if (typed) this.#type(typed);
    });
    await this.#look();
  }

  /** @param {"piece" | "shop" | "rack" | "room" | "bench"} what @param {string} text */
  change(what, text) {
    const { content } = this.state;
    if (!content) return;
    if (what === "piece") this.#type({ ...content, piece: text });
    else this.#type({ ...content, [what]: { name: content[what]?.name ?? what, text } });
    this.look();
  }

  /** @param {{what: "shop" | "rack" | "room" | "bench", name: string, text: string | null}} file */
  attach({ what, name, text }) {
    if (!this.state.content) return;
    this.#type({ ...this.state.content, [what]: { name, text } });
    void this.#look();
  }

  /** @param {"shop" | "rack" | "room" | "bench"} what */
  detach(what) {
    if (!this.state.content) return;
    this.#type({ ...this.state.content, [what]: null });
    void this.#look();
  }

  /** @param {string} why */
  async save(why) {
    const { content, piece, changed } = this.state;
    if (!content || !piece || !changed) return;
    await this.#saving(content, piece.version, why || "Written by hand");
  }

  /** @param {Content} content @param {number} parent @param {string} why */
  async #saving(content, parent, why) {
    await this.#trying(async () => {
      this.#take(await savePiece(this.number, content, parent, why), "Saved.");
    });
  }

  /** @param {"undo" | "redo"} way */
  async step(way) {
    const { piece } = this.state;
    if (!piece) return;
    await this.#trying(async () => {
      const opened = await stepPiece(this.number, way, piece.version);
      this.#take(opened, `Version ${opened.piece.version} is the current one.`);
    });
    await this.#look();
  }

  /** @param {number} version */
  async restore(version) {
    const { piece } = this.state;
    if (!piece) return;
    await this.#trying(async () => {
      this.#take(await restoreVersion(this.number, version, piece.version), `Version ${version} is back.`);
    });
    await this.#look();
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
    this.#set({ clash: null });
    if (way === "theirs") {
      await this.#trying(async () => this.#take(await openPiece(this.number), "The other version is here now."));
      await this.#look();
      return;
    }
    await this.#saving(content, clash.current, way === "merged" ? "Both changes brought together" : "Mine over the other");
    await this.#look();
  }

  /** What is wrong with what is typed, and how it would look. */
  async #look() {
    const { content } = this.state;
    if (!content) return;
    try {
      const { draft, errors } = await layDown(content);
      if (content === this.state.content) this.#set({ draft, faults: errors });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.#set({ faults: error.faults });
    }
  }

  /** @param {Content} content */
  #type(content) {
    const changed = JSON.stringify(content) !== JSON.stringify(this.state.saved);
    this.#set({ content, changed, said: "" });
    keepTyped(this.#place, changed ? { content, version: this.state.piece?.version ?? 0 } : null);
  }

  /** @param {PieceOpen} opened @param {string} said */
  #take({ piece, content }, said) {
    keepTyped(this.#place, null);
    this.#set({ piece, content, saved: content, changed: false, clash: null, refused: [], said });
    void askVersions(this.number).then(
      (versions) => this.#set({ versions }),
      () => undefined,
    );
  }

  /** @param {() => Promise<void>} work */
  async #trying(work) {
    this.#set({ busy: true, refused: [] });
    try {
      await work();
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      const body = /** @type {any} */ (error.body);
      const clash = body.theirs ? { current: body.current, merged: body.merged, theirs: body.theirs, yours: body.yours, lines: body.clashes } : null;
      this.#set({ refused: error.faults, clash });
    } finally {
      this.#set({ busy: false });
    }
  }

  /** @param {Partial<WritingState>} patch */
  #set(patch) {
    this.state = Object.freeze({ ...this.state, ...patch });
    this.listen(this.state);
  }
}

/** @param {string} place @param {number} version @returns {Content | null} */
function readTyped(place, version) {
  try {
    const found = JSON.parse(localStorage.getItem(place) ?? "null");
    return found && typeof found.content?.piece === "string" && found.version === version ? found.content : null;
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
