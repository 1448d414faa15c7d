/** Keeps shape and plan in step with what is asked for; the last ones that work stay on show. */

import { Refused, askFigures, askPlan, askShape } from "../api/plan.js";
import { UNITS, unitsOf } from "../lib/given.js";
import { later } from "../lib/later.js";

/** @typedef {import("./store.js").Store} Store */
/** @typedef {import("../types.js").Given} Given */

/** The shape follows the hand; the figures wait until it rests, and what takes longest until it rests for good. */
const [SHAPE_MS, FIGURES_MS, PLAN_MS] = [60, 160, 500];
/** `5` on the way to `54 1/2` is no fault: what cannot be is told when the hand rests. */
const FAULT_MS = 500;

export class Planning {
  #asking = new AbortController();

  /** @param {Store} store */
  constructor(store) {
    this.store = store;
    this.soon = later(() => void this.now(FIGURES_MS, PLAN_MS), SHAPE_MS);
  }

  /**
   * Ask for the shape, the figures and the whole plan of what is given now; an older question is given up.
   *
   * @param {number} [restMs] how long to wait after the shape
   * @param {number} [longMs] and after the figures
   */
  async now(restMs = 0, longMs = 0) {
    this.#asking.abort();
    const asking = new AbortController();
    this.#asking = asking;
    const { given, from } = this.store.state;
    this.store.set({ busy: true });
    try {
      await this.#follow(given, asking.signal, { restMs, longMs, from });
    } catch (error) {
      if (asking.signal.aborted) return;
      if (!(error instanceof Refused)) throw error;
      if (!(await rested(restMs ? FAULT_MS : 0, asking.signal))) return;
      this.store.set({ faults: error.faults, busy: false });
      if (!this.store.state.plan && Object.keys(given).length) await this.#asDrawn(asking.signal);
    }
  }

  /**
   * @param {Given} given
   * @param {AbortSignal} signal
   * @param {{restMs: number, longMs: number, from: string, faults?: import("../types.js").FaultView[]}} how faults: what stays told
   */
  async #follow(given, signal, { restMs, longMs, from, faults = [] }) {
    const shape = await askShape(given, signal, from);
    if (signal.aborted) return;
    const { state } = this.store;
    const chosen = shape.parts.some((part) => part.name === state.chosen);
    const same = shape.key === state.shape?.key;
    const planned = state.plan?.key === shape.key && state.plan.whole;
    // before the picture is drawn, which keeps the browser busy
    const early = restMs || planned ? null : told(askFigures(given, signal, from));
    const at = { shapedFrom: from, ...(planned ? { plannedFrom: from } : {}) };
    this.store.set({ faults, busy: !planned, ...at, ...(same ? {} : { shape, shaped: given }), ...(chosen ? {} : { chosen: "" }) });
    if (planned || !(await rested(restMs, signal))) return;
    const figures = await (early ?? askFigures(given, signal, from));
    if (signal.aborted) return;
    this.store.set({ plan: figures, planned: given, plannedFrom: from, busy: !figures.whole });
    if (figures.whole || !(await rested(longMs, signal))) return;
    const plan = await askPlan(given, signal, from);
    if (!signal.aborted) this.store.set({ plan, busy: false });
  }

  /**
   * Stand on the file as it is, where an address carries sizes that cannot be planned.
   *
   * @param {AbortSignal} signal
   */
  async #asDrawn(signal) {
    const { faults, from } = this.store.state;
    try {
      const faulty = faults.some((each) => each.field === UNITS);
      await this.#follow(faulty ? {} : unitsOf(this.store.state.given), signal, { restMs: 0, longMs: 0, from, faults });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
    }
    if (!signal.aborted) this.store.set({ faults, busy: false });
  }
}

/** Wait; whether it is still wanted then. @param {number} ms @param {AbortSignal} signal */
async function rested(ms, signal) {
  if (ms) await new Promise((done) => setTimeout(done, ms));
  return !signal.aborted;
}

/** A question whose refusal is looked at later. @template Answer @param {Promise<Answer>} asked */
function told(asked) {
  asked.catch(() => {});
  return asked;
}
