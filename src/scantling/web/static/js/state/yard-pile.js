/** The pile at the yard. It is kept on this device after every board, so an empty battery loses nothing. */

import { Refused } from "../api/plan.js";
import { openPiece, savePiece } from "../api/pieces.js";
import { askRackFile, askYard } from "../api/yard.js";
import { followed } from "../lib/pile.js";
import { keep, recall } from "../lib/this-browser.js";

/** @typedef {import("../types.js").TypedBoard} TypedBoard */
/** @typedef {import("../types.js").YardState} YardState */
/** @typedef {import("../types.js").Given} Given */

export class YardPile {
  /** the pile before the board judged last, and as it was advised then @type {readonly TypedBoard[]} */
  #before = Object.freeze([]);
  /** @type {readonly TypedBoard[]} */
  #advised = Object.freeze([]);
  /** what was said of it @type {YardState["answer"]} */
  #words = null;
  /** how often it was asked: what is answered to an older question is of a pile that is no more */
  #asked = 0;

  /**
   * @param {string} place name under which the pile is kept
   * @param {Given} given
   * @param {(state: YardState) => void} listen
   */
  constructor(place, given, listen) {
    this.place = place;
    this.given = given;
    this.listen = listen;
    const pile = kept(place);
    /** @type {YardState} */
    this.state = Object.freeze({ answer: answerKept(place, pile), pile, faults: [], judged: null, against: false, held: true, replaces: "", busy: false });
  }

  /** How the pile stands, with no board in hand. */
  async stand() {
    this.listen(this.state);
    await this.#ask(null, {});
  }

  /** @param {TypedBoard} lifted @returns {Promise<boolean>} whether it was judged */
  async judge(lifted) {
    if (this.state.pile.some((board) => board.name === lifted.name)) {
      this.#set({ faults: [sameName(lifted.name)] });
      return false;
    }
    const before = this.state.pile;
    const judged = await this.#ask(lifted, { judged: lifted, against: false });
    if (judged) [this.#before, this.#advised, this.#words] = [before, this.state.pile, this.state.answer];
    return judged;
  }

  /** The other way than advised, or the advised way again. */
  async otherWay() {
    const { judged } = this.state;
    if (!judged) return;
    const words = this.#words;
    const against = !this.state.against;
    const taken = this.#advised.some((board) => board.name === judged.name);
    const other = taken ? this.#before : Object.freeze([...this.#before, judged]);
    this.#set({ pile: against ? other : this.#advised, against });
    const asking = this.#ask(null, { judged });
    const asked = this.#asked;
    await asking;
    if (asked === this.#asked && words && this.state.answer) {
      const { verdict, reason, gains, giveBack } = words;
      this.#set({ answer: { ...this.state.answer, verdict, reason, gains, giveBack: against ? [] : giveBack } });
    }
  }

  /** @param {string} name */
  async drop(name) {
    const pile = Object.freeze(this.state.pile.filter((board) => board.name !== name));
    this.#set({ pile, judged: null }); // whatever is answered, the board judged last has no other way any more
    await this.#ask(null, {});
  }

  /**
   * Plan the piece with the pile as its rack from now on; a version of it. One it has already is replaced when that is
   * agreed to, and what was marked on its boards goes with it: it says nothing of these.
   *
   * @param {number} number of the piece
   * @param {boolean} agreed
   * @returns {Promise<boolean>} whether it is kept
   */
  async takeAsRack(number, agreed) {
    this.#set({ busy: true, faults: [] });
    try {
      const text = await (await askRackFile(this.state.pile, this.given)).text();
      const { piece, content } = await openPiece(number);
      const replaces = replaced(content);
      if (replaces && !agreed) {
        this.#set({ replaces });
        return false;
      }
      await savePiece(number, { ...content, bench: null, rack: { name: "pile.csv", text } }, piece.version, "Take the pile of the yard as the rack");
      return true;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.#set({ faults: error.faults });
      return false;
    } finally {
      this.#set({ busy: false });
    }
  }

  /** The pile as a rack file; none where it cannot be had, which is told. */
  async asFile() {
    try {
      return await askRackFile(this.state.pile, this.given);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.#set({ faults: error.faults });
      return null;
    }
  }

  /** @param {TypedBoard | null} lifted @param {Partial<YardState>} more @returns {Promise<boolean>} whether that is how things stand now */
  async #ask(lifted, more) {
    const asked = ++this.#asked;
    this.#set({ busy: true });
    try {
      const answer = await askYard(this.state.pile, lifted, this.given);
      if (asked !== this.#asked) return false;
      const pile = lifted ? followed(this.state.pile, lifted, answer) : this.state.pile;
      this.#set({ answer, pile, faults: [], ...more });
      keep(`${this.place} answer`, { pile, answer });
      return true;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (asked === this.#asked) this.#set({ faults: error.faults });
      return false;
    } finally {
      if (asked === this.#asked) this.#set({ busy: false });
    }
  }

  /** @param {Partial<YardState>} patch */
  #set(patch) {
    if (patch.pile || patch.judged !== undefined) patch = { replaces: "", ...patch };
    const held = patch.pile ? keep(this.place, patch.pile) : this.state.held;
    this.state = Object.freeze({ ...this.state, ...patch, held });
    this.listen(this.state);
  }
}

/** @param {string} name */
function sameName(name) {
  const message = `${name} is on the pile already: call this one otherwise.`;
  const nowhere = { place: "", file: "", line: 0, column: 0 };
  return { code: "name_twice", field: "name", message, rule: "", remedy: "", value: name, found: name, ...nowhere };
}

/** What the pile would take the place of. @param {import("../types.js").Content} content */
function replaced({ rack, bench }) {
  if (!rack && !bench) return "";
  const marks = bench?.text ? ", and what was marked and cut on its boards goes with it" : "";
  const had = rack ? (rack.text === null ? "It is planned with the stockroom now" : `It has the rack ${rack.name} now`) : "It has marks on boards now";
  return `${had}: the pile takes its place${marks}. Undo on the page of the boards brings it back.`;
}

/** @param {string} place @returns {readonly TypedBoard[]} */
function kept(place) {
  const found = recall(place);
  return Object.freeze(Array.isArray(found) ? found : []);
}

/**
 * The last that was said, for a place without a signal; nothing where the pile is another since.
 *
 * @param {string} place
 * @param {readonly TypedBoard[]} pile
 * @returns {YardState["answer"]}
 */
function answerKept(place, pile) {
  const found = recall(`${place} answer`);
  const same = found && JSON.stringify(found.pile) === JSON.stringify(pile);
  return same ? { ...found.answer, verdict: "", reason: "", gains: [], giveBack: [] } : null;
}
