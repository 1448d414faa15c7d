/**
 * What was told at the bench and is not sent yet. Each event is kept in this browser under a name of its own, so that
 * two windows never write over each other's; where the browser keeps nothing, it waits in the page.
 */

import { forget, keep, namesFrom, recall } from "../lib/this-browser.js";

/** @typedef {import("../types.js").BenchEvent} BenchEvent */
/** @typedef {{event: BenchEvent, number: number}} Told an event, and its number among those of its moment */

export class Waiting {
  /** @type {Map<string, Told>} what this browser would not keep */
  #here = new Map();
  #count = 0;

  /** @param {number} piece its number */
  constructor(piece) {
    this.place = `bench ${piece} waiting`;
    this.#takeList();
  }

  /** Oldest first. @returns {BenchEvent[]} */
  get list() {
    const told = [...this.#kept(), ...this.#here.values()];
    told.sort((one, other) => Date.parse(one.event.at) - Date.parse(other.event.at) || one.number - other.number);
    return told.map(({ event }) => event);
  }

  /** Whether all of it outlives the page. */
  get held() {
    return this.#here.size === 0;
  }

  /** @param {BenchEvent} event */
  add(event) {
    const told = { event, number: ++this.#count };
    if (!keep(this.#name(event.key), told)) this.#here.set(event.key, told);
  }

  /** @param {string} key */
  drop(key) {
    this.#here.delete(key);
    forget(this.#name(key));
  }

  /** @param {string} key */
  #name(key) {
    return `${this.place} ${key}`;
  }

  /** @returns {Told[]} */
  #kept() {
    return namesFrom(this.#name("")).flatMap((name) => recall(name) ?? []);
  }

  /** What an older page kept as one list. */
  #takeList() {
    const list = recall(this.place);
    if (!Array.isArray(list)) return;
    for (const event of list) this.add(event);
    if (this.held) forget(this.place);
  }
}
