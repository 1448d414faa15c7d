/** The one state of the page. It is replaced, never changed in place; whoever listens is told what is new. */

/** @typedef {import("../types.js").State} State */

export class Store {
  /** @type {Set<(state: State, before: State) => void>} */
  #listeners = new Set();

  /** @param {State} state */
  constructor(state) {
    this.state = Object.freeze(state);
  }

  /** @param {Partial<State>} patch */
  set(patch) {
    const before = this.state;
    this.state = Object.freeze({ ...before, ...patch });
    for (const listener of this.#listeners) listener(this.state, before);
  }

  /** @param {(state: State, before: State) => void} listener */
  listen(listener) {
    this.#listeners.add(listener);
  }
}

/**
 * @param {import("../types.js").Given} given
 * @returns {State}
 */
export function firstState(given) {
  return {
    given,
    shaped: {},
    shape: null,
    planned: {},
    plan: null,
    faults: [],
    busy: true,
    chosen: "",
    pointed: [],
    apart: 0,
    seeThrough: false,
    month: 0,
    larger: 10,
    kept: null,
    cut: "",
    share: 0.5,
    measuring: false,
    picked: [],
    measured: null,
    preview: null,
    from: "",
    shapedFrom: "",
    plannedFrom: "",
    marked: [],
  };
}
