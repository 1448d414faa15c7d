/** Two edges picked, one after the other, and what lies between them; a third begins anew. */

import { askMeasure } from "../api/measure.js";
import { Refused } from "../api/plan.js";

/** @typedef {import("./store.js").Store} Store */
/** @typedef {import("../types.js").State} State */

export class Measuring {
  /** @param {Store} store */
  constructor(store) {
    this.store = store;
  }

  /** @param {State["picked"][number]} edge */
  async pick(edge) {
    const [first, second] = this.store.state.picked;
    if (!first || second) {
      this.store.set({ picked: [edge], measured: null });
      return;
    }
    if (isSame(first, edge)) return; // tapped twice: nothing lies between, and the second is still asked for
    this.store.set({ picked: [first, edge] });
    try {
      const { shaped, shapedFrom } = this.store.state;
      const measured = await askMeasure(first, edge, shaped, shapedFrom);
      if (this.store.state.picked[1] === edge) this.store.set({ measured });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.store.set({ picked: [first] });
    }
  }
}

/** Whether two edges are one, whichever way round. @param {State["picked"][number]} one @param {State["picked"][number]} other */
function isSame(one, other) {
  const told = (/** @type {State["picked"][number]} */ edge) => edge.map(String).sort().join(" ");
  return told(one) === told(other);
}
