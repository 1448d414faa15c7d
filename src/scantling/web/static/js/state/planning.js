/** Keeps the plan in step with what is asked for; the last plan that works stays on show. */

import { Refused, askPlan } from "../api/plan.js";
import { later } from "../lib/later.js";

/** @typedef {import("./store.js").Store} Store */

const QUIET_MS = 220;

export class Planning {
  /** @type {AbortController} */
  #asking = new AbortController();

  /** @param {Store} store */
  constructor(store) {
    this.store = store;
    this.soon = later(() => void this.now(), QUIET_MS);
  }

  /** Ask for the plan of what is given now; an older question is given up. */
  async now() {
    this.#asking.abort();
    const asking = new AbortController();
    this.#asking = asking;
    const { given } = this.store.state;
    this.store.set({ busy: true });
    try {
      const plan = await askPlan(given, asking.signal);
      if (asking.signal.aborted) return;
      const chosen = plan.parts.some((part) => part.name === this.store.state.chosen);
      this.store.set({
        plan,
        planned: given,
        faults: [],
        busy: false,
        pointed: [],
        ...(chosen ? {} : { chosen: "" }),
      });
    } catch (error) {
      if (asking.signal.aborted) return;
      if (!(error instanceof Refused)) throw error;
      this.store.set({ faults: error.faults, busy: false });
    }
  }
}
