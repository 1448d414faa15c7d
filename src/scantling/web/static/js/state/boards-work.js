/**
 * The boards as they are, the part that is picked, and the search. Every mark is sent at once and kept by the server;
 * one that another window was before with is made again on what that window left.
 */

import { Refused } from "../api/plan.js";
import { numberOf, openPiece, savePiece } from "../api/pieces.js";
import { askBoards, askPlace, measureMark, searchAddress, stepNotes, tellAct } from "../api/boards.js";
import { NO_ANSWER } from "../errors.js";
import { cornerOf, placedAt, workedOn } from "../lib/boards.js";

/** @typedef {import("../board-types.js").BoardsState} BoardsState */
/** @typedef {import("../board-types.js").SearchState} SearchState */
/** @typedef {import("../board-types.js").NotesView} NotesView */
/** @typedef {import("../board-types.js").JudgedView} JudgedView */
/** @typedef {import("../types.js").FaultView} FaultView */
/** @typedef {import("../types.js").Given} Given */
/** @typedef {import("./unwritten.js").Unwritten} Unwritten */

/** What the server answers to a mark made on what is not as it was. */
const MOVED_ON = 409;
const BROKEN_OFF = "The search broke off before its time; this computer may be short of memory. Search again.";
/** @type {SearchState} */
const NO_SEARCH = Object.freeze({ on: false, number: 0, begun: 0, last: null, best: null, said: "" });

export class BoardsWork {
  /** @type {EventSource | null} */
  #stream = null;
  #asked = 0;
  #judging = 0;
  /** @type {{part: string, steps: [number, number], fine: boolean}[]} steps asked for while one is on its way */
  #steps = [];
  /** @type {Promise<void> | null} */
  #moving = null;

  /** @param {Unwritten} unwritten notes that are not written yet, as this browser keeps them @param {Given} given @param {(state: BoardsState) => void} told */
  constructor(unwritten, given, told) {
    this.unwritten = unwritten;
    this.given = given;
    this.told = told;
    /** @type {BoardsState} */
    this.state = Object.freeze({
      view: null,
      faults: [],
      laying: true,
      said: "",
      picked: "",
      judged: null,
      dragging: false,
      worked: "",
      marking: "",
      mark: null,
      unwritten: "",
      search: NO_SEARCH,
    });
  }

  /** @param {Partial<BoardsState>} patch */
  set(patch) {
    const state = { ...this.state, ...patch };
    if (!state.dragging) state.worked = workedOn(state); // nothing moves under a part that is being dragged
    this.state = Object.freeze(state);
    this.told(this.state);
  }

  /** Everything as it is now; what was asked for earlier and comes later is left. @param {FaultView[]} [faults] what stays told */
  async open(faults = []) {
    const asked = ++this.#asked;
    this.set({ laying: true });
    try {
      const view = await askBoards(this.given);
      if (asked !== this.#asked) return;
      this.set({ view, laying: false, faults, unwritten: this.unwritten.left(view.notes) });
      if (this.state.picked && !this.#isThere(this.state.picked)) this.putDown();
    } catch (error) {
      if (asked === this.#asked) this.set({ laying: false, faults: faultsOf(error) });
    }
  }

  /** Plan the piece with a rack from now on; a version of it. @param {{name: string, text: string | null}} rack */
  async takeRack(rack) {
    const number = numberOf(location.pathname);
    this.set({ laying: true, said: "" });
    try {
      const { piece, content } = await openPiece(number);
      await savePiece(number, { ...content, rack }, piece.version, rack.text === null ? "Plan with the stockroom" : `Take the rack ${rack.name}`);
      await this.open();
      if (this.state.view && !this.state.view.rack) this.set({ said: "The stockroom holds no boards yet; those that come in are laid out here." });
    } catch (error) {
      this.set({ laying: false, faults: faultsOf(error) });
    }
  }

  /** @param {string} units */
  show(units) {
    this.given = Object.freeze({ ...this.given, units });
    void this.open();
  }

  /**
   * Make a mark; the rest is laid out anew.
   *
   * @param {Record<string, unknown>} act
   * @returns {Promise<boolean>} whether it was made
   */
  async act(act) {
    const again = act["act"] !== "text"; // whole notes would take the place of what the other window has left
    const { picked, marking } = this.state;
    const done = await this.#kept((parent) => tellAct({ ...act, parent }, this.given), again);
    // what was picked or begun while it was on its way stays
    if (done && picked === this.state.picked && marking === this.state.marking) this.putDown();
    return done;
  }

  /** @param {"undo" | "redo" | "write"} way */
  async step(way) {
    await this.#kept((parent) => stepNotes(way, parent), false);
  }

  /** Notes of before that were never written: taken up again, or let go. @param {boolean} taken */
  async leftOver(taken) {
    const { view, unwritten: text } = this.state;
    if (!view || (taken && !(await this.act({ act: "text", text })))) return;
    this.unwritten.forget(view.notes, text);
    this.set({ unwritten: this.unwritten.left(this.state.view?.notes ?? view.notes) });
  }

  /** @param {string} name */
  async pick(name) {
    if (name === this.state.picked) return this.putDown();
    this.set({ picked: name, judged: null, marking: "", mark: null, faults: [] });
    const { view } = this.state;
    const there = view && placedAt(view.boards, name);
    if (there && !there.part.cut) await this.judge({ part: name, drawing: there.board.name, corner: cornerOf(there.part.box) });
  }

  putDown() {
    this.#judging += 1;
    this.set({ picked: "", judged: null, dragging: false, marking: "", mark: null });
  }

  /** Where the part picked is put; the last asked counts. @param {Record<string, unknown>} put @param {boolean} [dragging] @returns {Promise<JudgedView | null>} */
  async judge(put, dragging = false) {
    const asked = ++this.#judging;
    if (this.state.dragging !== dragging) this.set({ dragging });
    try {
      const judged = await askPlace(put, this.given);
      if (asked !== this.#judging) return null;
      this.set({ judged, picked: judged.part, faults: [] });
      return judged;
    } catch (error) {
      if (asked === this.#judging) this.set({ faults: faultsOf(error) });
      return null;
    }
  }

  /** Move the part picked by steps; those asked for while one is on its way go together after it. @param {[number, number]} steps @param {boolean} fine */
  async nudge(steps, fine) {
    const { judged, picked: part } = this.state;
    if (!part || !judged || judged.atMm === null) return;
    const last = this.#steps.at(-1);
    if (last?.part === part && last.fine === fine) last.steps = [last.steps[0] + steps[0], last.steps[1] + steps[1]];
    else this.#steps.push({ part, steps, fine });
    this.#moving ??= this.#move().finally(() => (this.#moving = null));
    await this.#moving;
  }

  async #move() {
    for (let next = this.#steps.shift(); next; next = this.#steps.shift()) {
      const { judged, picked, dragging } = this.state;
      if (picked !== next.part || dragging || !judged || judged.atMm === null) continue;
      await this.judge({ ...next, board: judged.board, atMm: judged.atMm, upMm: judged.upMm });
    }
  }

  /** Put the part picked on another board, at its left end. @param {string} [board] the next one if none is named */
  async toBoard(board) {
    const { judged, picked, view } = this.state;
    if (!picked || !view) return;
    const now = judged?.board ?? placedAt(view.boards, picked)?.board.root ?? "";
    await this.judge({ part: picked, board: board ?? now, first: true, nextBoard: !board });
  }

  /** Take the place that was proposed. */
  async nearby() {
    const { judged, picked } = this.state;
    if (judged) await this.judge({ part: picked, board: judged.board, atMm: judged.betterAtMm, upMm: judged.betterUpMm });
  }

  /** Hold the part picked where it is put, or to its board alone. @param {boolean} place */
  async hold(place) {
    const { picked: before } = this.state;
    await this.#moving; // it is held where the steps lead
    const { judged, picked } = this.state;
    if (!judged || picked !== before) return false;
    const at = place ? { atMm: judged.atMm, upMm: judged.upMm } : {};
    return this.act({ act: "hold", part: picked, board: judged.board, ...at });
  }

  /** @param {string} board */
  mark(board) {
    const { marking } = this.state;
    this.putDown();
    if (marking !== board) this.set({ marking: board, faults: [] });
  }

  /** @param {string} drawing @param {[number, number]} one @param {[number, number]} other */
  async drawn(drawing, one, other) {
    try {
      this.set({ mark: await measureMark(drawing, one, other, this.given), faults: [] });
    } catch (error) {
      this.set({ faults: faultsOf(error) });
    }
  }

  /** Search for a better layout; each is shown as it comes. @param {string} seconds */
  search(seconds) {
    this.#stream?.close();
    const stream = new EventSource(searchAddress(seconds, this.given));
    this.#stream = stream;
    this.set({ search: { ...NO_SEARCH, on: true, begun: Date.now() } });
    const heard = (/** @type {string} */ name, /** @type {(data: any) => void} */ action) =>
      stream.addEventListener(name, (event) => action(JSON.parse(/** @type {MessageEvent} */ (event).data)));
    heard("begun", ({ number }) => this.#found({ number }));
    heard("better", (last) => this.#found(last.better ? { last, best: last } : { last }));
    heard("end", ({ broken_off }) => this.stop(broken_off ? BROKEN_OFF : "The search has come to its end."));
    heard("refused", ({ errors }) => {
      this.stop("");
      this.set({ faults: errors, search: NO_SEARCH });
    });
    stream.onerror = () => this.stop(NO_ANSWER.rule);
  }

  /** Stop; the best layout found so far can be kept. @param {string} [said] */
  stop(said = "Stopped.") {
    this.#stream?.close();
    this.#stream = null;
    const { search } = this.state;
    const found = search.best ? "The best layout found so far can be kept." : "Nothing better was found.";
    this.set({ search: { ...search, on: false, said: `${said} ${found}`.trim() } });
  }

  /** Keep the best layout found. */
  async keep() {
    const { search } = this.state;
    if (!search.best) return;
    if (search.on) this.stop();
    if (await this.act({ act: "keep", number: search.best.number })) this.set({ search: NO_SEARCH });
  }

  /** @param {Partial<SearchState>} patch */
  #found(patch) {
    this.set({ search: { ...this.state.search, ...patch } });
  }

  /**
   * @param {(parent: number) => Promise<NotesView>} send
   * @param {boolean} [again] whether to do it again on what another window has left
   * @returns {Promise<boolean>}
   */
  async #kept(send, again = true) {
    const { view } = this.state;
    if (!view) return false;
    this.set({ laying: true, said: "", faults: [] });
    try {
      this.#take(await sent(send, view.notes.parent, again));
      void this.open();
      return true;
    } catch (error) {
      this.set({ laying: false, faults: faultsOf(error) });
      if (error instanceof Refused && error.body["status"] === MOVED_ON) await this.open(error.faults);
      return false;
    }
  }

  /** @param {NotesView} notes */
  #take(notes) {
    const { view } = this.state;
    if (view) this.set({ view: { ...view, notes }, said: notes.said });
    this.unwritten.heed(notes);
  }

  /** @param {string} name */
  #isThere(name) {
    const { view } = this.state;
    return Boolean(view && (placedAt(view.boards, name) ?? view.loose.some((each) => each.name === name)));
  }
}

/** @param {(parent: number) => Promise<NotesView>} send @param {number} parent @param {boolean} again */
async function sent(send, parent, again) {
  try {
    return await send(parent);
  } catch (error) {
    if (!again || !(error instanceof Refused) || typeof error.body["current"] !== "number") throw error;
    return send(error.body["current"]);
  }
}

/** @param {unknown} error */
function faultsOf(error) {
  if (!(error instanceof Refused)) throw error;
  return error.faults;
}
