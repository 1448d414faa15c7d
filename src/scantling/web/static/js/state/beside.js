/**
 * The piece file beside the picture of the piece. What is typed is drawn, not saved; what is changed on the page stands
 * in the text at once, and where both touch the same lines, whoever types chooses.
 */

import { Refused } from "../api/plan.js";
import { askTyped, openPiece } from "../api/pieces.js";
import { freshLines } from "../lib/lines.js";
import { Writing } from "./writing.js";

/** @typedef {import("../types.js").Content} Content */
/** @typedef {import("../types.js").EntryPlace} EntryPlace */
/** @typedef {import("../types.js").PieceOpen} PieceOpen */
/** @typedef {import("../types.js").WritingState} WritingState */

/** How long lines that were changed elsewhere are marked. */
const FRESH_MS = 6000;
const NOTHING = Object.freeze(/** @type {Record<string, string>} */ ({}));

export class Beside extends Writing {
  /** @type {Record<string, string>} sizes to be written into the text */
  #sizes = NOTHING;
  #asking = false;
  #again = false;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #fading;

  /**
   * @param {number} number of the piece
   * @param {(state: WritingState) => void} listen
   * @param {{drawn: (draft: string) => void, saved: (opened: PieceOpen) => void}} told of what can be drawn (a draft, or
   *   what is saved), and of what was saved here
   */
  constructor(number, listen, told) {
    super(number, listen);
    this.told = told;
  }

  /** Where the entry of a part stands, the one of its own where it is a copy. @param {string} part @returns {EntryPlace | undefined} */
  entryOf(part) {
    const found = this.state.entries.filter((each) => each.path[0] === "parts" && each.parts.includes(part));
    return found.sort((one, other) => one.last - one.first - (other.last - other.first))[0];
  }

  /** The innermost entry that stands on a line. @param {number} line @returns {EntryPlace | undefined} */
  entryAt(line) {
    return this.state.entries.filter((each) => each.first <= line && line <= each.last).at(-1);
  }

  /** Write sizes into the text; they are not saved by that. @param {Record<string, string>} sizes */
  async size(sizes) {
    this.#sizes = { ...this.#sizes, ...sizes };
    await this.asIs();
  }

  /** Look whether the piece was changed in another window. */
  async lookAgain() {
    if (!this.state.content) return;
    try {
      this.moved(await openPiece(this.number));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.set({ refused: error.faults });
    }
    await this.asIs();
  }

  /** The piece was changed on the page. @param {PieceOpen} opened */
  moved(opened) {
    const { content, piece, changed } = this.state;
    if (!content || !piece) return;
    if (changed && opened.piece.version !== piece.version) {
      void this.asIs(); // which brings both together, from the version that was typed from
      return;
    }
    if (changed || (opened.piece.version === piece.version && opened.content.piece === content.piece)) {
      this.set({ piece: opened.piece });
      return;
    }
    const lines = freshLines(content.piece, opened.content.piece);
    this.take(opened, told(lines));
    this.#freshen(lines);
    void this.asIs();
  }

  /** Let go of what is typed; one key brings it back. */
  drop() {
    const { content, saved } = this.state;
    if (!content || !saved) return;
    this.type(saved);
    this.set({ dropped: content, said: "As it is saved." });
    void this.asIs();
  }

  bringBack() {
    const { dropped } = this.state;
    if (!dropped) return;
    this.type(dropped);
    this.set({ dropped: null, said: "What you typed is here again." });
    void this.asIs();
  }

  /** @override @param {import("../types.js").Content} content */
  type(content) {
    super.type(content);
    if (this.state.changed) this.set({ dropped: null });
  }

  /** @override @param {string} why */
  async save(why) {
    const before = this.state.piece?.version;
    await super.save(why);
    const { piece, saved } = this.state;
    if (piece && saved && piece.version !== before) this.told.saved({ piece, content: saved });
    await this.asIs();
  }

  /** Go on typing after a choice; only a save saves. @override @param {"merged" | "theirs" | "yours"} way */
  async settle(way) {
    const { clash, content: mine } = this.state;
    const content = clash?.[way];
    if (!clash || !content) return;
    this.#rest(clash.current, clash.theirs, way === "yours" && mine ? mine : content);
    const words = { merged: "Both changes are in the text, not saved yet.", yours: "Your lines stay, not saved yet.", theirs: "The other is here now." };
    this.set({ said: words[way], dropped: way === "theirs" ? mine : null });
    await this.asIs();
  }

  /** Draw what is typed; one question at a time, the last text counts. @override */
  async asIs() {
    if (this.#asking) {
      this.#again = true;
      return;
    }
    this.#asking = true;
    try {
      do {
        this.#again = false;
        await this.#ask();
      } while (this.#again);
    } finally {
      this.#asking = false;
    }
  }

  async #ask() {
    const { content, piece, clash } = this.state;
    if (!content || !piece || clash) return; // a choice is waited for
    const sizes = this.#sizes;
    this.#sizes = NOTHING;
    try {
      const answer = await askTyped(this.number, { content, parent: piece.version, sizes });
      if (content === this.state.content) this.#take(answer, content);
      else this.#later(sizes);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (error.body["theirs"]) this.#meet(/** @type {any} */ (error.body), sizes);
      else this.set({ refused: error.faults });
    }
  }

  /** What could not be written yet is written into what was typed meanwhile. @param {Record<string, string>} sizes */
  #later(sizes) {
    this.#sizes = { ...sizes, ...this.#sizes };
    this.#again = true;
  }

  /** @param {import("../types.js").TypedBody} answer @param {Content} asked */
  #take({ content, draft, errors, entries }, asked) {
    const lines = freshLines(asked.piece, content.piece);
    if (lines.length || Object.keys(content.given).length !== Object.keys(asked.given).length) {
      this.type(content);
      this.set({ said: told(lines) });
      this.#freshen(lines);
    }
    // an entry that cannot be read just now is known by where it was
    this.set({ draft, faults: errors, entries: entries.length || !errors.length ? entries : this.state.entries, refused: [] });
    if (!errors.length) this.told.drawn(this.state.changed ? draft : "");
  }

  /** The piece was changed meanwhile: bring both together, or ask. @param {any} body @param {Record<string, string>} sizes */
  #meet({ current, merged, theirs, yours, clashes }, sizes) {
    const { content } = this.state;
    if (!content) return;
    if (!merged) {
      this.#sizes = sizes;
      this.set({ clash: { current, merged, theirs, yours, lines: clashes } });
      return;
    }
    this.#later(sizes);
    if (yours.piece !== content.piece && !Object.keys(sizes).length) return; // typed on meanwhile: ask again
    const lines = freshLines(content.piece, merged.piece);
    this.#rest(current, theirs, merged);
    this.set({ said: `Changed on the page, and brought together with what you typed. ${told(lines)}` });
    this.#freshen(lines);
  }

  /** Go on from another version. @param {number} version @param {Content} saved @param {Content} content */
  #rest(version, saved, content) {
    const { piece } = this.state;
    if (!piece) return;
    this.set({ piece: { ...piece, version }, saved, clash: null, refused: [] });
    this.type(content);
  }

  /** @param {number[]} fresh */
  #freshen(fresh) {
    clearTimeout(this.#fading);
    this.set({ fresh });
    this.#fading = setTimeout(() => this.set({ fresh: [] }), FRESH_MS);
  }

  /** Its versions are on a page of their own. @override */
  askVersions() {
    // nothing to ask
  }
}

/** Which lines are otherwise now. @param {number[]} lines */
function told(lines) {
  if (!lines.length) return "";
  const [first, last] = [Math.min(...lines), Math.max(...lines)];
  if (first === last) return `Line ${first} changed.`;
  return lines.length === last - first + 1 ? `Lines ${first} to ${last} changed.` : `${lines.length} lines changed, ${first} to ${last}.`;
}
