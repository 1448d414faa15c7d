/**
 * The work at the bench. Whatever is ticked, timed or measured is kept in this browser first and sent then; what could
 * not be sent waits and is sent again, and counts once. The last work seen is kept too, so that it opens with no server.
 */

import { NO_ANSWER, NOT_UNDERSTOOD } from "../errors.js";
import { Refused } from "../api/plan.js";
import { newMark } from "../lib/marking.js";
import { askBench, askWork, takeBackMeasured, tellBench } from "../api/bench.js";
import { changeEntry } from "../api/entries.js";
import { openPiece } from "../api/pieces.js";

/** @typedef {import("../types.js").BenchBody} BenchBody */
/** @typedef {import("../types.js").BenchEvent} BenchEvent */
/** @typedef {import("../types.js").BenchState} BenchState */
/** @typedef {import("../types.js").FaultView} FaultView */

/** Kinds of events after which something else is to be made. */
const CHANGING = new Set(["measured", "step done", "step open"]);

export class BenchWork {
  /** @type {BenchEvent[]} */
  #waiting = [];
  /** @type {Promise<void> | null} what waits on its way to the server */
  #sending = null;
  /** @type {FaultView[]} why the server would not have what was sent last */
  #refused = [];
  #asked = 0;

  /** @param {number} number of the piece @param {(state: BenchState) => void} listen */
  constructor(number, listen) {
    this.number = number;
    this.listen = listen;
    this.#waiting = read(`${this.#place} waiting`, []);
    /** @type {BenchBody | null} */
    const told = read(`${this.#place} bench`, null);
    const bench = this.#waiting.reduce((/** @type {BenchBody | null} */ stands, event) => after(stands, event), told);
    /** @type {BenchState} */
    this.state = Object.freeze({ work: read(`${this.#place} work`, null), bench, faults: [], chosen: "", unsent: this.#waiting.length, working: false, said: "" });
  }

  get #place() {
    return `bench ${this.number}`;
  }

  /** The work and how it stands; what waits is sent first. */
  async open() {
    this.listen(this.state);
    await this.#send();
    await this.#trying(async () => {
      const [work, bench] = await Promise.all([askWork(), askBench(this.number)]);
      write(`${this.#place} work`, work);
      this.#set({ work, faults: this.#refused });
      this.#take(bench);
    });
  }

  /**
   * Tell what was done.
   *
   * @param {Omit<BenchEvent, "at" | "key">} what
   */
  async tell(what) {
    /** @type {BenchEvent} */
    const event = { ...what, at: new Date().toISOString(), key: newMark() };
    this.#waiting = [...this.#waiting, event];
    write(`${this.#place} waiting`, this.#waiting);
    this.#set({ bench: after(this.state.bench, event), unsent: this.#waiting.length });
    await this.#send();
  }

  /** What the server has, after it refused something; the refusal stays told. */
  async #asItStands() {
    try {
      this.#take(await askBench(this.number));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
    }
  }

  /**
   * Take back all that was measured of a size: it is then as planned again.
   *
   * @param {string} subject
   */
  async takeBack(subject) {
    await this.#send();
    await this.#trying(async () => {
      this.#take(await takeBackMeasured(this.number, subject));
      await this.#ask();
    });
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
    await this.#send();
    await this.#trying(async () => {
      const { piece } = await openPiece(this.number);
      const opened = await changeEntry(this.number, "remedies", { path, text, parent: piece.version });
      this.#set({ said: `${words}: kept as version ${opened.piece.version}. Undo on the page of the piece brings it back.` });
      await this.#ask();
    });
  }

  /** The work anew: what is measured or done changes what is still to be made. The last asked for counts. */
  async #ask() {
    const asked = ++this.#asked;
    this.#set({ working: true });
    try {
      const work = await askWork();
      if (asked !== this.#asked) return;
      write(`${this.#place} work`, work);
      this.#set({ work, faults: this.#refused });
    } finally {
      if (asked === this.#asked) this.#set({ working: false });
    }
  }

  /** @param {string} chosen key of the step to look at; empty for the next */
  choose(chosen) {
    this.#set({ chosen });
  }

  /** Send what waits, in order; what is told while that is on its way goes with it. */
  #send() {
    if (!this.#waiting.length) return Promise.resolve();
    this.#sending ??= this.#sendAll();
    return this.#sending;
  }

  async #sendAll() {
    let changes = false;
    this.#refused = [];
    try {
      for (let event = this.#waiting[0]; event; event = this.#waiting[0]) {
        const bench = await this.#sent(event);
        if (bench === "no answer") return;
        this.#waiting = this.#waiting.slice(1);
        write(`${this.#place} waiting`, this.#waiting);
        this.#set({ unsent: this.#waiting.length, faults: this.#refused });
        if (bench) this.#take(bench);
        changes = changes || (bench !== null && CHANGING.has(event.kind));
      }
    } finally {
      this.#sending = null; // the work takes as long as a plan: what is told meanwhile does not wait for it
    }
    if (this.#refused.length) await this.#asItStands();
    if (changes) await this.#trying(() => this.#ask());
  }

  /** One event sent; null where the server will not have it: it is not sent for ever. @param {BenchEvent} event @returns {Promise<BenchBody | null | "no answer">} */
  async #sent(event) {
    try {
      return await tellBench(this.number, event);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (unanswered(error)) {
        this.#set({ faults: error.faults });
        return "no answer";
      }
      this.#refused = [...this.#refused, ...error.faults];
      return null;
    }
  }

  /** @param {BenchBody} bench */
  #take(bench) {
    if (this.#waiting.length) return;
    write(`${this.#place} bench`, bench);
    this.#set({ bench });
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

/** The records cannot be written just now. */
const NOT_NOW = 503;

/** Whether nobody has looked at what was sent: it may be sent again. @param {Refused} error */
function unanswered(error) {
  return error.body["status"] === NOT_NOW || error.faults.every((each) => each.code === NO_ANSWER.code || each.code === NOT_UNDERSTOOD.code);
}

/**
 * How things stand after an event that is not sent yet.
 *
 * @param {BenchBody | null} bench
 * @param {BenchEvent} event
 * @returns {BenchBody}
 */
export function after(bench, event) {
  const { done, measured, running, ranMin } = bench ?? { done: {}, measured: {}, running: {}, ranMin: {} };
  const { [event.subject]: began, ...others } = running;
  switch (event.kind) {
    case "step done":
      return { done: { ...done, [event.subject]: event.at }, measured, running, ranMin };
    case "step open": {
      const { [event.subject]: _, ...left } = done;
      return { done: left, measured, running, ranMin };
    }
    case "measured":
      return { done, measured: { ...measured, [event.subject]: { written: event.written ?? `${event.figure} ${event.unit}` } }, running, ranMin };
    case "timer started":
      return { done, measured, running: { ...running, [event.subject]: event.at }, ranMin };
    case "timer stopped": {
      const ran = began ? (Date.parse(event.at) - Date.parse(began)) / 60_000 : 0;
      return { done, measured, running: others, ranMin: { ...ranMin, [event.subject]: (ranMin[event.subject] ?? 0) + ran } };
    }
    default:
      return { done, measured, running, ranMin };
  }
}

/**
 * @template Kind
 * @param {string} place
 * @param {Kind} without
 * @returns {Kind}
 */
function read(place, without) {
  try {
    return JSON.parse(localStorage.getItem(place) ?? "null") ?? without;
  } catch {
    return without;
  }
}

/** @param {string} place @param {unknown} value */
function write(place, value) {
  try {
    localStorage.setItem(place, JSON.stringify(value));
  } catch {
    // storage may be switched off: then only what was sent is kept
  }
}
