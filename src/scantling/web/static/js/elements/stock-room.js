/** The boards that are there, by wood and thickness; those chosen go out, are read or get labels. */

import { LitElement, html, nothing } from "lit";
import { Refused } from "../api/plan.js";
import { askActs, askStock, labelsAddress, tellStock } from "../api/stock.js";
import { actWords, boardWords, boardsWord, lastAct } from "../lib/stock.js";
import { keepText, recallText } from "../lib/this-browser.js";

/** @typedef {import("../types.js").StockBody} StockBody */
/** @typedef {import("../types.js").BoardBody} BoardBody */
/** @typedef {import("../types.js").ActBody} ActBody */

/** Status of a refusal where something else was done since. */
const MOVED = 409;
const UNITS = "scantling-stock-units";
const UNIT_KEYS = /** @type {const} */ ([
  ["mm", "Millimeters"],
  ["in", "Inches"],
  ["both", "Both"],
]);

export class StockRoom extends LitElement {
  /** @override */
  static properties = { stock: { state: true }, acts: { state: true }, chosen: { state: true }, fault: { state: true }, said: { state: true }, units: { state: true }, busy: { state: true } };

  constructor() {
    super();
    /** @type {StockBody | null} */
    this.stock = null;
    /** @type {ActBody[]} */
    this.acts = [];
    /** @type {ReadonlySet<number>} */
    this.chosen = new Set();
    this.fault = "";
    this.said = "";
    /** while an act is on its way: "Take back" is of another one after it */
    this.busy = false;
    this.units = recallText(UNITS) ?? "mm";
  }

  /** @override */
  createRenderRoot() {
    return this; // the styles of the page are ours as well
  }

  /** @override */
  connectedCallback() {
    super.connectedCallback();
    this.addEventListener("stock-act", (event) => {
      const { act, body, done } = /** @type {CustomEvent} */ (event).detail;
      void this.#tell(act, body).then((kept) => kept && done?.());
    });
    this.addEventListener("stock-changed", () => this.#turn(this.units));
    this.#turn(this.units);
  }

  /** @override */
  render() {
    const { stock, fault, said } = this;
    const chosen = stock?.boards.filter((board) => this.chosen.has(board.number)) ?? [];
    return html`
      ${fault ? html`<p class="notice bad" role="alert">${fault}</p>` : nothing}
      <p class="said" role="status">${stock ? said : "Looking ..."}</p>
      ${stock ? this.#boards(stock) : nothing}
      ${stock ? html`<stock-acts .boards=${chosen} .units=${this.units}></stock-acts>` : nothing}
      ${stock?.boards.length ? html`<stock-cut .units=${this.units}></stock-cut>` : nothing}
      ${stock ? html`<stock-in .units=${this.units} .woods=${stock.stacks}></stock-in>` : nothing}
      ${this.acts.length ? this.#history() : nothing}
    `;
  }

  /** @param {StockBody} stock */
  #boards({ boards, stacks }) {
    if (!boards.length) return html`<p class="none">Nothing is here yet. Take boards in below.</p>`;
    return html`
      <div class="ways first">
        <div role="group" aria-label="Show lengths in">
          ${UNIT_KEYS.map(
            ([units, word]) => html`<button type="button" class="key quiet" aria-pressed=${String(units === this.units)} @click=${() => this.#turn(units)}>${word}</button>`,
          )}
        </div>
        <a class="key quiet" href="/api/stockroom/rack.csv">As a rack file</a>
        <a class="key quiet" href=${labelsAddress([], this.units, this.units === "in" ? "letter" : "a4")}>Labels of all</a>
      </div>
      ${stacks.map(
        (stack) => html`<section class="stack">
          <h2>${stack.nominal} ${stack.species} <small>${boardsWord(stack.boards)}, ${stack.amount}</small></h2>
          <ul>
            ${boards.filter((board) => board.species === stack.species && board.nominal === stack.nominal).map((board) => this.#board(board))}
          </ul>
        </section>`,
      )}
    `;
  }

  /** @param {BoardBody} board */
  #board(board) {
    return html`<li>
      <label>
        <input type="checkbox" .checked=${this.chosen.has(board.number)} @change=${() => this.#choose(board.number)} />
        <b>${board.name}</b> <span class="size">${board.size}</span>
        <small>${boardWords(board)}</small>
      </label>
    </li>`;
  }

  #history() {
    const last = lastAct(this.acts);
    return html`
      <h2 class="begin">What was done</h2>
      ${last
        ? html`<button type="button" class="key" ?disabled=${this.busy} @click=${() => void this.#tell("take-back", { act: last.number })}>Take back: ${actWords(last)}</button>`
        : nothing}
      <ol class="acts">
        ${this.acts.map((act) => html`<li class=${act.counts || act.takesBack !== null ? "" : "gone"}>
          <span>${act.at.slice(0, 10)}</span> ${actWords(act)}${act.counts || act.takesBack !== null ? nothing : html` <em>(taken back)</em>`}
        </li>`)}
      </ol>
    `;
  }

  /** @param {number} number */
  #choose(number) {
    const chosen = new Set(this.chosen);
    if (!chosen.delete(number)) chosen.add(number);
    this.chosen = chosen;
  }

  /** @param {string} units */
  #turn(units) {
    this.units = units;
    keepText(UNITS, units);
    void this.#trying(async () => this.#take(await askStock(units)));
  }

  /** @param {"add" | "go" | "keep" | "take-back"} act @param {Record<string, unknown>} body */
  async #tell(act, body) {
    this.busy = true;
    return this.#trying(async () => {
      await this.#take(await tellStock(act, body, this.units));
      const [done] = this.acts;
      this.said = done ? `Kept: ${actWords(done)}.` : "";
    }).finally(() => (this.busy = false));
  }

  /** @param {StockBody} stock */
  async #take(stock) {
    this.stock = stock;
    const there = new Set(stock.boards.map((board) => board.number));
    this.chosen = new Set([...this.chosen].filter((number) => there.has(number)));
    this.acts = await askActs();
  }

  /** @param {() => Promise<unknown>} work @returns {Promise<boolean>} whether it was done */
  async #trying(work) {
    try {
      await work();
      this.fault = "";
      return true;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.fault = error.message;
      this.said = "";
      if (Number(error.body["status"]) === MOVED) await this.#again();
      return false;
    }
  }

  /** Something was done elsewhere: show what is there now, beside what was refused. */
  async #again() {
    try {
      await this.#take(await askStock(this.units));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
    }
  }
}
