/**
 * Notes that the program holds and has not written, kept in this browser as well: for each file and each run of the
 * program by themselves, so that what an earlier run held is there until it is taken up or let go.
 */

import { forget, keepText, namesFrom, recallText } from "../lib/this-browser.js";

/** @typedef {import("../board-types.js").NotesView} NotesView */

export class Unwritten {
  /** @param {string} place */
  constructor(place) {
    this.place = place;
  }

  /** Hold notes that are not written; those that are need it no more. @param {NotesView} notes */
  heed(notes) {
    if (notes.kept === "version") return;
    if (notes.written) forget(this.#name(notes));
    else keepText(this.#name(notes), notes.text); // where it is not kept, it lasts as long as the program runs
  }

  /** What an earlier run of the program held and never wrote; empty where there is nothing. @param {NotesView} notes */
  left(notes) {
    const texts = this.#others(notes).map((name) => recallText(name) ?? "");
    return texts.find((text) => text !== notes.text) ?? "";
  }

  /** Such notes are taken up, or let go. @param {NotesView} notes @param {string} text */
  forget(notes, text) {
    for (const name of this.#others(notes)) if (recallText(name) === text) forget(name);
  }

  /** @param {NotesView} notes @returns {string[]} names of what other runs held beside the same file */
  #others(notes) {
    if (notes.kept === "version") return [];
    return namesFrom(`${this.place} ${notes.held} `).filter((name) => name !== this.#name(notes));
  }

  /** @param {NotesView} notes */
  #name({ held, run }) {
    return `${this.place} ${held} ${run}`;
  }
}
