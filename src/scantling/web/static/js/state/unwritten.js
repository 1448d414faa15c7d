/**
 * Notes that the program holds and has not written, kept in this browser as well: for each file and each run of the
 * program by themselves, so that what an earlier run held is there until it is taken up or let go.
 */

/** @typedef {import("../board-types.js").NotesView} NotesView */

export class Unwritten {
  /** @param {string} place */
  constructor(place) {
    this.place = place;
  }

  /** Hold notes that are not written; those that are need it no more. @param {NotesView} notes */
  heed(notes) {
    if (notes.kept === "version") return;
    try {
      if (notes.written) localStorage.removeItem(this.#name(notes));
      else localStorage.setItem(this.#name(notes), notes.text);
    } catch {
      // then they last as long as the program runs
    }
  }

  /** What an earlier run of the program held and never wrote; empty where there is nothing. @param {NotesView} notes */
  left(notes) {
    const texts = this.#others(notes).map((name) => localStorage.getItem(name) ?? "");
    return texts.find((text) => text !== notes.text) ?? "";
  }

  /** Such notes are taken up, or let go. @param {NotesView} notes @param {string} text */
  forget(notes, text) {
    for (const name of this.#others(notes)) if (localStorage.getItem(name) === text) localStorage.removeItem(name);
  }

  /** @param {NotesView} notes @returns {string[]} names of what other runs held beside the same file */
  #others(notes) {
    if (notes.kept === "version") return [];
    try {
      const names = Array.from({ length: localStorage.length }, (_, at) => localStorage.key(at) ?? "");
      return names.filter((name) => name.startsWith(`${this.place} ${notes.held} `) && name !== this.#name(notes));
    } catch {
      return [];
    }
  }

  /** @param {NotesView} notes */
  #name({ held, run }) {
    return `${this.place} ${held} ${run}`;
  }
}
