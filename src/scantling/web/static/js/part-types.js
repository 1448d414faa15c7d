/**
 * A new part as the server is asked about it and answers; see scantling/web/part_bodies.py.
 *
 * @typedef {object} ChoiceBody
 * @property {string} value
 * @property {string} label
 *
 * @typedef {object} PartChoices
 * @property {ChoiceBody[]} kinds
 * @property {ChoiceBody[]} ways
 * @property {string[]} woods
 * @property {string[]} sheets
 *
 * @typedef {object} SlotBody
 * @property {string} name
 * @property {string} label
 * @property {string} text
 * @property {ChoiceBody[]} choices
 * @property {string} group
 * @property {string} result what a length comes to
 *
 * @typedef {object} PartTried
 * @property {string} name
 * @property {string} species
 * @property {SlotBody[]} slots
 * @property {string} entry
 * @property {string} draft
 * @property {string} meets
 * @property {import("./types.js").FaultView[]} errors
 *
 * @typedef {object} BriefField see scantling/web/brief_routes.py
 * @property {string} name
 * @property {string} label
 * @property {string} about
 * @property {string} text
 * @property {ChoiceBody[]} choices
 * @property {string} usual
 *
 * @typedef {object} BriefBody
 * @property {number} version
 * @property {BriefField[]} fields
 *
 * Ours alone:
 *
 * @typedef {object} PartNew what is said of it
 * @property {string} kind
 * @property {string} name
 * @property {string} species
 * @property {string} way
 * @property {string} at the part it is near
 * @property {Readonly<Record<string, string>>} typed by the name of its slot
 *
 * @typedef {object} Preview a piece drawn with a part that is not kept
 * @property {import("./types.js").ShapeView} shape
 * @property {string} base address its picture is asked for below
 * @property {string} name
 */

export {};
