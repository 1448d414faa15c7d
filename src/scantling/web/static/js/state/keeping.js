/** The records behind the page of a piece that is kept: its sizes saved as a version, steps back and forth. */

import { Refused } from "../api/plan.js";
import { takeBackMeasured } from "../api/bench.js";
import { changeEntry } from "../api/entries.js";
import { changePiece, openPiece, savePiece, stepPiece } from "../api/pieces.js";
import { sizesOf } from "../lib/given.js";

/** @typedef {import("./store.js").Store} Store */
/** @typedef {import("../types.js").PieceOpen} PieceOpen */

const SEEN_FIRST = "it is shown now, and nothing was changed. Press again if it is still wanted.";

export class Keeping {
  /** @type {PieceOpen | null} */
  #opened = null;
  /** How much of what was asked for here is on its way. */
  #working = 0;

  /** Whom else it is told that the piece was changed here. @type {(opened: PieceOpen) => void} */
  told = () => {};

  /** @param {number} number @param {Store} store */
  constructor(number, store) {
    this.number = number;
    this.store = store;
  }

  /** @returns {Promise<void>} */
  async look() {
    if (this.number) await this.#trying(async () => this.#take(await openPiece(this.number), ""));
  }

  /** What another window made of it meanwhile is where this page goes on from; what was done here meanwhile is newer. @returns {Promise<void>} */
  async lookAgain() {
    const before = this.#opened;
    if (!before) return;
    const opened = await this.#newest(); // where it cannot be asked now, that is told when it is changed
    if (!opened || this.#opened !== before || this.#working || opened.piece.version === before.piece.version) return;
    this.#show(opened, `Changed in another window: it is at version ${opened.piece.version} of ${opened.piece.versions} now.`);
  }

  /** Save the sizes on show as the next version, with what another window saved meanwhile where that is something else. @returns {Promise<boolean>} */
  async keep() {
    return this.#trying(async () => {
      const { piece, content } = this.#opened ?? (await openPiece(this.number));
      const given = { ...content.given, ...sizesOf(this.store.state.given) };
      const names = Object.keys(sizesOf(this.store.state.given)).map((name) => name.replaceAll("_", " "));
      const why = `Other ${names.join(", ")}`;
      let beside = "";
      const saved = await savePiece(this.number, { ...content, given }, piece.version, why).catch((error) => {
        const { merged, current } = error instanceof Refused ? /** @type {any} */ (error.body) : {};
        if (!merged) throw error;
        beside = " together with what was saved elsewhere meanwhile";
        return savePiece(this.number, merged, current, why);
      });
      this.#take(saved, `Kept as version ${saved.piece.version}${beside}. Undo brings the sizes before back.`);
    });
  }

  /** Call the piece something else; its file is titled so, as a version. @param {string} name @returns {Promise<boolean>} */
  async call(name) {
    return this.#trying(async () => {
      await changePiece(this.number, { name });
      this.#take(await openPiece(this.number), `Called ${name}.`);
    });
  }

  /** @param {"undo" | "redo"} way @returns {Promise<boolean>} */
  async step(way) {
    return this.#trying(async () => {
      const { piece } = this.#opened ?? (await openPiece(this.number));
      const stepped = await stepPiece(this.number, way, piece.version);
      const { version, versions } = stepped.piece;
      this.#take(stepped, `${way === "undo" ? "Undone" : "Done again"}: it is at version ${version} of ${versions}.`);
    }, SEEN_FIRST);
  }

  /** Write what mends a finding. @param {import("../types.js").Remedy} remedy @returns {Promise<boolean>} */
  async mend({ path, text, words, takenBack }) {
    return this.#trying(async () => {
      if (takenBack) {
        await takeBackMeasured(this.number, { subject: takenBack });
        const { kept } = this.store.state;
        if (kept) this.store.set({ kept: { ...kept, said: `${words}: done. The bench has a field to write it again.` } });
        return;
      }
      const { piece } = this.#opened ?? (await openPiece(this.number));
      const opened = await changeEntry(this.number, "remedies", { path, text, parent: piece.version });
      this.#take(opened, `${words}: kept as version ${opened.piece.version}. Undo brings it back.`);
    }, SEEN_FIRST);
  }

  /** The file was changed from elsewhere on this page. @param {PieceOpen} opened */
  changed(opened) {
    this.#take(opened, `Kept as version ${opened.piece.version}.`);
  }

  /** @param {PieceOpen} opened @param {string} said */
  #take(opened, said) {
    this.#show(opened, said);
    this.told(opened);
  }

  /** @param {PieceOpen} opened @param {string} said */
  #show(opened, said) {
    this.#opened = opened;
    const { version, versions, undo, redo } = opened.piece;
    this.store.set({ kept: { version, versions, undo, redo, said } });
  }

  /** @returns {Promise<PieceOpen | null>} */
  async #newest() {
    return openPiece(this.number).catch((error) => {
      if (!(error instanceof Refused)) throw error;
      return null;
    });
  }

  /** @param {() => Promise<void>} work @param {string} [overtaken] what is said where another window's version is shown instead of doing it @returns {Promise<boolean>} whether it was done */
  async #trying(work, overtaken = "") {
    this.#working += 1;
    try {
      await work();
      return true;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      const newest = overtaken && "theirs" in error.body ? await this.#newest() : null;
      if (newest) {
        this.#show(newest, `Another window saved version ${newest.piece.version} meanwhile: ${overtaken}`);
        return false;
      }
      const { kept } = this.store.state;
      const said = "theirs" in error.body ? "Another window saved other sizes meanwhile: reload the page to see them; yours stay in its address, and can be kept then." : error.message;
      this.store.set({ kept: { version: 0, versions: 0, undo: null, redo: null, ...kept, said, refused: this.store.state.given } });
      this.#opened = null;
      return false;
    } finally {
      this.#working -= 1;
    }
  }
}
