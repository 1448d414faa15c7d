/** Keeps shape and plan in step with what is asked for; the last ones that work stay on show. */

import { Refused, askPlan, askShape } from "../api/plan.js";
import { UNITS, unitsOf } from "../lib/given.js";
import { later } from "../lib/later.js";

/** @typedef {import("./store.js").Store} Store */
/** @typedef {import("../types.js").Given} Given */

/** The shape follows the hand; the plan takes longer, and waits until the hand rests. */
const [SHAPE_MS, PLAN_MS] = [90, 260];

export class Planning {
  #asking = new AbortController();

  /** @param {Store} store */
  constructor(store) {
    this.store = store;
    this.soon = later(() => void this.now(PLAN_MS), SHAPE_MS);
  }

  /**
   * Ask for the shape and then the plan of what is given now; an older question is given up.
   *
   * @param {number} [restMs] how long to wait between the two
   */
  async now(restMs = 0) {
    this.#asking.abort();
    const asking = new AbortController();
    this.#asking = asking;
    const { given } = this.store.state;
    this.store.set({ busy: true });
    try {
      await this.#follow(given, asking.signal, restMs);
    } catch (error) {
      if (asking.signal.aborted) return;
      if (!(error instanceof Refused)) throw error;
      this.store.set({ faults: error.faults, busy: false });
      if (!this.store.state.plan && Object.keys(given).length) await this.#asDrawn(asking.signal);
    }
  }

  /** @param {Given} given @param {AbortSignal} signal @param {number} restMs */
  async #follow(given, signal, restMs) {
    const shape = await askShape(given, signal);
    if (signal.aborted) return;
    const chosen = shape.parts.some((part) => part.name === this.store.state.chosen);
    const same = shape.key === this.store.state.shape?.key;
    // before the picture is drawn, which keeps the browser busy
    const early = restMs ? null : told(askPlan(given, signal));
    this.store.set({ faults: [], ...(same ? {} : { shape, shaped: given }), ...(chosen ? {} : { chosen: "" }) });
    if (restMs) await new Promise((done) => setTimeout(done, restMs));
    if (signal.aborted) return;
    const plan = await (early ?? askPlan(given, signal));
    if (signal.aborted) return;
    const known = plan.key === this.store.state.plan?.key;
    this.store.set({ busy: false, ...(known ? {} : { plan, planned: given }) });
  }

  /**
   * Stand on the file as it is, where an address carries sizes that cannot be planned.
   *
   * @param {AbortSignal} signal
   */
  async #asDrawn(signal) {
    const { faults } = this.store.state;
    try {
      const faulty = faults.some((each) => each.field === UNITS);
      await this.#follow(faulty ? {} : unitsOf(this.store.state.given), signal, 0);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
    }
    if (!signal.aborted) this.store.set({ faults, busy: false });
  }
}

/** A question whose refusal is looked at later. @template Answer @param {Promise<Answer>} asked */
function told(asked) {
  asked.catch(() => {});
  return asked;
}
