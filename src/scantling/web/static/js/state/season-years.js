/** The year of the piece in a room, and when to build it; the last that works stays on show. */

import { Refused } from "../api/plan.js";
import { askBuild, askSeasons } from "../api/seasons.js";

/** @typedef {import("../season-types.js").SeasonState & {unbuilt: readonly import("../types.js").FaultView[]}} SeasonState with why it is not told when to build it */
/** @typedef {import("../types.js").Given} Given */

export class SeasonYears {
  #asked = 0;
  #askedWhen = 0;

  /** @param {(state: SeasonState) => void} listen */
  constructor(listen) {
    this.listen = listen;
    /** @type {SeasonState} */
    this.state = Object.freeze({ seasons: null, build: null, faults: [], unbuilt: [], busy: true, month: 0, larger: 10 });
  }

  /** @param {Partial<SeasonState>} patch */
  set(patch) {
    this.state = Object.freeze({ ...this.state, ...patch });
    this.listen(this.state);
  }

  /** Show the year in a room. @param {Given} given @param {string} elsewhere */
  async look(given, elsewhere) {
    const asked = ++this.#asked;
    this.set({ busy: true, faults: [] });
    try {
      const seasons = await askSeasons(given, elsewhere);
      if (asked === this.#asked) this.set({ seasons, busy: false });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (asked === this.#asked) this.set({ faults: error.faults, busy: false });
    }
  }

  /** Say when to build it, or why that cannot be told: the year may be told all the same. @param {Given} given */
  async lookWhen(given) {
    const asked = ++this.#askedWhen;
    this.set({ unbuilt: [] });
    try {
      const build = await askBuild(given);
      if (asked === this.#askedWhen) this.set({ build });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (asked === this.#askedWhen) this.set({ unbuilt: error.faults });
    }
  }
}
