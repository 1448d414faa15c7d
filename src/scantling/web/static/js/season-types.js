/**
 * The seasons as the server sends them, field by field; a test compares the two.
 *
 * @typedef {object} OtherRoom
 * @property {string} value
 * @property {string} label
 * @property {string} group
 *
 * @typedef {object} SeasonsView
 * @property {boolean} ok
 * @property {string} units
 * @property {string} key
 * @property {string} own
 * @property {string} room
 * @property {string} elsewhere
 * @property {string} verdict
 * @property {boolean} binds
 * @property {import("./types.js").Sheet[]} sheets
 * @property {import("./types.js").YearView} year
 * @property {OtherRoom[]} rooms
 *
 * @typedef {object} BuildView
 * @property {boolean} ok
 * @property {string} units
 * @property {string} key
 * @property {import("./types.js").Sheet[]} sheets
 *
 * Ours alone:
 *
 * @typedef {object} SeasonState
 * @property {SeasonsView | null} seasons
 * @property {BuildView | null} build
 * @property {import("./types.js").FaultView[]} faults
 * @property {boolean} busy
 * @property {number} month place in the year; 0 as built
 * @property {number} larger how many times larger its movement is drawn
 */
export {};
