/**
 * Texts that are written and not saved, each by the place it is written for: in this browser, so that a reload loses
 * none; and here, for a browser that keeps nothing, as long as the page is open.
 */

import { forget, keep, recall } from "./this-browser.js";

/**
 * @typedef {object} UnsavedText
 * @property {string} text
 * @property {number} version what it was begun on
 * @property {boolean} held whether this browser keeps it
 * @property {boolean} again whether it was found, written before this page was opened
 */

export class UnsavedTexts {
  /** @type {Map<string, UnsavedText>} */
  #here = new Map();

  /** @param {string} place @returns {UnsavedText | null} */
  of(place) {
    const here = this.#here.get(place);
    if (here) return here;
    const found = recall(place);
    if (typeof found?.text !== "string" || !Number.isInteger(found.version)) return null;
    return { text: found.text, version: found.version, held: true, again: true };
  }

  /** @param {string} place @param {string} text @param {number} version @returns {UnsavedText} */
  write(place, text, version) {
    const written = { text, version, held: keep(place, { text, version }), again: false };
    this.#here.set(place, written);
    return written;
  }

  /** It is saved, or not wanted. @param {string} place */
  letGo(place) {
    this.#here.delete(place);
    forget(place);
  }
}
