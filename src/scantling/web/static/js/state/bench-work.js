/**
 * The work at the bench. Whatever is ticked, timed or measured is kept in this browser first and sent then; what could
 * not be sent waits and is sent again, and counts once. The last work seen is kept too, so that it opens with no server.
 */

import { Refused } from "../api/plan.js";
import { askBench, askWork, takeBackMeasured, tellBench } from "../api/bench.js";
import { changeEntry } from "../api/entries.js";
import { openPiece } from "../api/pieces.js";
import { after } from "../lib/bench.js";
import { newMark } from "../lib/marking.js";
import { keep, recall } from "../lib/this-browser.js";

/** @typedef {import("../types.js").BenchBody} BenchBody */
/** @typedef {import("../types.js").BenchEvent} BenchEvent */
/** @typedef {import("../types.js").BenchState} BenchState */
/** @typedef {import("../types.js").FaultView} FaultView */
/** @typedef {import("./bench-waiting.js").Waiting} Waiting */

/** Kinds of events after which something else is to be made. */
const CHANGING = new Set(["measured", "taken back", "step done", "step open"]);
/** What the server answers when it has looked at what was sent and will not have it; all else may be otherwise later. */
const JUDGED = new Set([400, 413, 422]);
/** Done by a version that is not there: of records put back to an older day. */
const NO_VERSION = "unknown_version";
const NOTHING_LEFT = "nothing_to_take_back";

export class BenchWork {
  /** @type {Promise<void> | null} what waits on its way to the server */
  #sending = null;
  #asked = 0;
  /** What lengths are shown in; empty for the unit of the piece. */
  units = "";

  /** @param {number} number of the piece @param {Waiting} waiting what is not sent yet @param {(state: BenchState) => void} listen */
  constructor(number, waiting, listen) {
    this.number = number;
    this.waiting = waiting;
    this.listen = listen;
    const { list, held } = this.waiting;
    /** @type {BenchState} */
    this.state = Object.freeze({
      work: recall(`${this.#place} work`),
      bench: this.#stands(),
      faults: [],
      refused: recall(`${this.#place} refused`) ?? [],
      chosen: "",
      unsent: list.length,
      held,
      working: false,
      said: "",
    });
  }

  get #place() {
    return `bench ${this.number}`;
  }

  /** The work and how it stands; what waits is sent first. */
  async open() {
    this.listen(this.state);
    await this.send();
    await Promise.all([this.#asItStands(), this.#trying(() => this.#ask())]);
  }

  /** Show lengths otherwise. @param {string} units */
  show(units) {
    this.units = units;
    return this.#trying(() => this.#ask());
  }

  /**
   * Tell what was done.
   *
   * @param {Omit<BenchEvent, "at" | "key">} what
   */
  async tell(what) {
    /** @type {BenchEvent} */
    const event = { ...what, at: this.#now(what.subject), key: newMark(), ...this.#seen() };
    this.waiting.add(event);
    this.#set({ bench: after(this.state.bench, event), ...this.#left() });
    await this.send();
  }

  /**
   * Take back all that was measured of a size: it is then as planned again.
   *
   * @param {string} subject
   */
  takeBack(subject) {
    return this.tell({ kind: "taken back", subject });
  }

  /**
   * Do what mends a finding: take a measure back, or change the piece, which is kept as a version.
   *
   * @param {import("../types.js").Remedy} remedy
   */
  async mend({ words, path, text, takenBack }) {
    this.#set({ said: "" });
    if (takenBack) {
      await this.takeBack(takenBack);
      if (!this.state.faults.length) this.#set({ said: `${words}: done. Write it again where it was, if it holds.` });
      return;
    }
    await this.send();
    await this.#trying(async () => {
      const { piece } = await openPiece(this.number);
      const opened = await changeEntry(this.number, "remedies", { path, text, parent: piece.version });
      this.#set({ said: `${words}: kept as version ${opened.piece.version}. Undo on the page of the piece brings it back.` });
      await this.#ask();
    });
  }

  /** Send what waits, in order; what is told while that is on its way goes with it. */
  send() {
    if (!this.waiting.list.length) return Promise.resolve();
    this.#sending ??= this.#sendAll();
    return this.#sending;
  }

  /** The version that is worked by: it may be another one before what is done can be sent. */
  #seen() {
    const version = this.state.work?.version;
    return version ? { version } : {};
  }

  /** What another window of this browser keeps has changed. @param {string | null} name */
  heard(name) {
    if (name?.startsWith(`${this.#place} `)) this.#set({ bench: this.#stands(), refused: recall(`${this.#place} refused`) ?? [], ...this.#left() });
  }

  /** What was refused has been seen. */
  seen() {
    this.#refuse([]);
  }

  /** @param {string} chosen key of the step to look at; empty for the next */
  choose(chosen) {
    this.#set({ chosen });
  }

  async #sendAll() {
    let [changes, refused] = [false, false];
    try {
      for (let [event] = this.waiting.list; event; [event] = this.waiting.list) {
        const bench = await this.#sent(event);
        if (bench === "no answer") return;
        this.waiting.drop(event.key);
        this.#set({ ...this.#left(), faults: [] });
        if (bench) this.#settle(event, bench);
        changes = changes || (bench !== null && CHANGING.has(event.kind));
        refused = refused || bench === null;
      }
    } finally {
      this.#sending = null; // the work takes as long as a plan: what is told meanwhile does not wait for it
    }
    if (refused) await this.#asItStands();
    if (changes) await this.#trying(() => this.#ask());
  }

  /** One event sent; null where the server will not have it: it is not sent for ever. @param {BenchEvent} event @returns {Promise<BenchBody | null | "no answer">} */
  async #sent(event) {
    try {
      return await (event.kind === "taken back" ? this.#tookBack(event) : tellBench(this.number, event));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (!JUDGED.has(Number(error.body["status"])) && error.faults[0]?.code !== NO_VERSION) {
        this.#set({ faults: error.faults });
        return "no answer";
      }
      this.#refuse([...this.state.refused, { event, faults: error.faults }]);
      return null;
    }
  }

  /** What was measured of a subject until then; where nothing is left of it, that is what was wanted. @param {BenchEvent} event @returns {Promise<BenchBody>} */
  async #tookBack(event) {
    try {
      return await takeBackMeasured(this.number, event);
    } catch (error) {
      if (!(error instanceof Refused) || error.faults[0]?.code !== NOTHING_LEFT) throw error;
      return askBench(this.number);
    }
  }

  /** An event is kept: what was refused of the same before is put right. @param {BenchEvent} event @param {BenchBody} bench */
  #settle({ kind, subject }, bench) {
    const { refused } = this.state;
    const left = refused.filter(({ event }) => event.kind !== kind || event.subject !== subject);
    if (left.length < refused.length) this.#refuse(left);
    this.#take(bench);
  }

  /** @param {BenchState["refused"]} refused */
  #refuse(refused) {
    keep(`${this.#place} refused`, refused);
    this.#set({ refused });
  }

  /** What the server has: what another device did, or what stands after something was refused. */
  async #asItStands() {
    try {
      this.#take(await askBench(this.number));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
    }
  }

  /** The work anew: what is measured or done changes what is still to be made. The last asked for counts. */
  async #ask() {
    const asked = ++this.#asked;
    this.#set({ working: true });
    try {
      const work = await askWork(this.units);
      if (asked !== this.#asked) return;
      keep(`${this.#place} work`, work);
      this.#set({ work, faults: [] });
    } finally {
      if (asked === this.#asked) this.#set({ working: false });
    }
  }

  /** @param {BenchBody} bench */
  #take(bench) {
    if (this.waiting.list.length) return;
    keep(`${this.#place} bench`, bench);
    this.#set({ bench });
  }

  /** Now, and after all that waits and what is seen of a subject: another device's clock may be ahead of this one. @param {string} subject */
  #now(subject) {
    const [waits, seen] = [this.waiting.list.at(-1)?.at, this.state.bench?.measured[subject]?.at];
    const told = [waits, seen].flatMap((at) => (at ? [Date.parse(at) + 1] : []));
    return new Date(Math.max(Date.now(), ...told)).toISOString();
  }

  /** How things stand by all this browser keeps. @returns {BenchBody | null} */
  #stands() {
    /** @type {BenchBody | null} */
    const told = recall(`${this.#place} bench`);
    return this.waiting.list.reduce((/** @type {BenchBody | null} */ stands, event) => after(stands, event), told);
  }

  #left() {
    const { list, held } = this.waiting;
    return { unsent: list.length, held };
  }

  /** @param {() => Promise<void>} work */
  async #trying(work) {
    try {
      await work();
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.#set({ faults: error.faults });
    }
  }

  /** @param {Partial<BenchState>} patch */
  #set(patch) {
    this.state = Object.freeze({ ...this.state, ...patch });
    this.listen(this.state);
  }
}
