/** Asking for the seasons of a piece. */

import { ask } from "./plan.js";
import { writeGiven } from "../lib/given.js";

/** @typedef {import("../types.js").Given} Given */
/** @typedef {import("../season-types.js").SeasonsView} SeasonsView */
/** @typedef {import("../season-types.js").BuildView} BuildView */

/** The year in a room; its own where none is named. @param {Given} given @param {string} elsewhere @returns {Promise<SeasonsView>} @throws {import("./plan.js").Refused} */
export async function askSeasons(given, elsewhere) {
  return (await ask(`api/seasons${writeGiven(elsewhere ? { ...given, elsewhere } : given)}`)).json();
}

/** When to build it. @param {Given} given @returns {Promise<BuildView>} @throws {import("./plan.js").Refused} */
export async function askBuild(given) {
  return (await ask(`api/seasons/build${writeGiven(given)}`)).json();
}
