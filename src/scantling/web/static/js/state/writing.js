/**
 * The files of a piece while they are written. What is typed is kept in this browser until it is saved, so that a
 * closed window loses nothing; a save made elsewhere meanwhile is never written over.
 */

import { Refused } from "../api/plan.js";
import { askTyped, askVersions, layDown, openPiece, restoreVersion, savePiece, stepPiece } from "../api/pieces.js";
import { later } from "../lib/later.js";
import { freshLines } from "../lib/lines.js";
import { forget, keep, recall } from "../lib/this-browser.js";

/** @typedef {import("../types.js").Content} Content */
/** @typedef {import("../types.js").EntryPlace} EntryPlace */
/** @typedef {import("../types.js").PieceOpen} PieceOpen */
/** @typedef {import("../types.js").WritingState} WritingState */

const REST_MS = 350;
/** How long lines that were changed elsewhere are marked. */
const FRESH_MS = 6000;
const NOTHING = Object.freeze(/** @type {Record<string, string>} */ ({}));

export class Writing {
  /** @type {Content | null} what was sent last to be saved */
  #sent = null;
  /** Whether what was typed since is to be saved too, once the answer is there. */
  #wanted = false;

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
      held: true,
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
    return `text ${this.number}`;
  }

  /** Whether something typed in this browser waits to be saved, opened or not. */
  get waits() {
    return readTyped(this.#place) !== null;
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
    const { content, piece, changed, busy } = this.state;
    if (!content || !piece || !changed) return;
    if (busy) this.#wanted ||= content !== this.#sent;
    else await this.#saving(content, piece.version, why || "Written by hand");
  }

  /** @param {Content} content @param {number} parent @param {string} why */
  async #saving(content, parent, why) {
    this.#sent = content;
    await this.#taking(() => savePiece(this.number, content, parent, why), () => "Saved.", content);
  }

  /**
   * Take what is answered; what is typed while it is on its way stays.
   *
   * @param {() => Promise<PieceOpen>} ask
   * @param {(opened: PieceOpen) => string} said
   * @param {Content | null} [sent] what is saved by it
   */
  async #taking(ask, said, sent = null) {
    await this.trying(async () => {
      const { content: before, piece } = this.state;
      const opened = await ask();
      const typed = this.state.content;
      this.take(opened, said(opened));
      if (!typed || same(typed, before)) return;
      // typed over what is not what is there now: a save brings both together
      if (piece && !same(sent, before)) this.set({ piece: { ...opened.piece, version: piece.version } });
      this.type(typed);
    });
  }

  /** @param {"undo" | "redo"} way */
  async step(way) {
    const { piece, busy, changed } = this.state;
    if (!piece || busy || changed) return;
    await this.#taking(
      () => stepPiece(this.number, way, piece.version),
      (opened) => `Version ${opened.piece.version} is the current one.`,
    );
    await this.asIs();
  }

  /** @param {number} version */
  async restore(version) {
    const { piece, busy, changed } = this.state;
    if (!piece || busy || changed) return;
    await this.#taking(
      () => restoreVersion(this.number, version, piece.version),
      () => `Version ${version} is back.`,
    );
    await this.asIs();
  }

  /**
   * Go on after a save made elsewhere: with both changes, with theirs, or with yours over theirs. What was typed since the
   * save is yours too.
   *
   * @param {"merged" | "theirs" | "yours"} way
   */
  async settle(way) {
    const { clash, content: mine } = this.state;
    const content = clash?.[way];
    if (!clash || !content || !mine) return;
    this.set({ clash: null });
    if (way === "theirs") await this.#taking(() => openPiece(this.number), () => "The other version is here now.");
    else if (way === "yours") await this.#saving(mine, clash.current, "Mine over the other");
    else if (same(mine, this.#sent)) await this.#saving(content, clash.current, "Both changes brought together");
    else await this.save(""); // which brings both together anew
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
    const held = !changed || keep(this.#place, { content, version: this.state.piece?.version ?? 0 });
    if (!changed) forget(this.#place);
    this.set({ content, changed, held, said: "" });
  }

  /** What is saved, with nothing typed over it. @param {PieceOpen} opened @param {string} said */
  take({ piece, content }, said) {
    forget(this.#place);
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
    const wanted = this.#wanted && !this.state.refused.length;
    this.#wanted = false;
    if (wanted) void this.save("");
  }

  /** @param {Partial<WritingState>} patch */
  set(patch) {
    this.state = Object.freeze({ ...this.state, ...patch });
    this.listen(this.state);
  }
}

/**
 * The piece file beside the picture of the piece. What is typed is drawn, not saved; what is changed on the page stands
 * in the text at once, and where both touch the same lines, whoever types chooses.
 */
export class Beside extends Writing {
  /** @type {Record<string, string>} sizes to be written into the text */
  #sizes = NOTHING;
  #asking = false;
  #again = false;
  /** @type {Promise<void> | undefined} the save that is on its way */
  #saved;
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
    const { content, piece } = this.state;
    if (!content) return;
    try {
      const opened = await openPiece(this.number);
      if (this.state.piece === piece) this.moved(opened); // else it was saved meanwhile, and this is what was there before
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
    this.set({ dropped: content, said: "Back at what is saved." });
    void this.asIs();
  }

  bringBack() {
    const { dropped } = this.state;
    if (!dropped) return;
    this.type(dropped);
    this.set({ dropped: null, said: "What you typed is here again." });
    void this.asIs();
  }

  /** @override @param {Content} content */
  type(content) {
    super.type(content);
    if (this.state.changed) this.set({ dropped: null });
  }

  /** @override @param {string} why */
  async save(why) {
    if (this.state.busy) return super.save(why); // it waits for the one on its way
    const before = this.state.piece?.version;
    this.#saved = super.save(why);
    await this.#saved;
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
    await this.#saved;
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
      // what moved on while a save of ours was on its way is that save
      const ours = this.state.busy || this.state.piece?.version !== piece.version;
      if (error.body["theirs"] && ours) this.#later(sizes);
      else if (error.body["theirs"]) this.#meet(/** @type {any} */ (error.body), sizes);
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

/** @param {Content | null} one @param {Content | null} other */
function same(one, other) {
  return JSON.stringify(one) === JSON.stringify(other);
}

/** Which lines are otherwise now. @param {number[]} lines */
function told(lines) {
  if (!lines.length) return "";
  const [first, last] = [Math.min(...lines), Math.max(...lines)];
  if (first === last) return `Line ${first} changed.`;
  return lines.length === last - first + 1 ? `Lines ${first} to ${last} changed.` : `${lines.length} lines changed, ${first} to ${last}.`;
}

/** @param {string} place @returns {{content: Content, version: number} | null} */
function readTyped(place) {
  const found = recall(place);
  return found && typeof found.content?.piece === "string" && Number.isInteger(found.version) ? found : null;
}
