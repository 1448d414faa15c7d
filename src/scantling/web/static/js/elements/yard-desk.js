/**
 * The yard in one hand: a board typed with large keys, judged at once, and the pile it goes on.
 *
 * @fires judge-board detail: TypedBoard
 * @fires other-way   against the advice
 * @fires drop-board  detail: name
 * @fires keep-pile   the pile as a file
 * @fires take-pile   the pile as the rack of the piece; detail: whether it may take the place of the one it has
 */

import { LitElement, html, nothing } from "lit";
import { allTold, told } from "../lib/faults.js";
import { unitWord } from "../lib/given.js";
import { keptWords } from "../lib/this-browser.js";
import { KEYS, inWords, markInWords, nextName, sized, typed } from "../lib/pile.js";

/** @typedef {import("../types.js").TypedBoard} TypedBoard */
/** @typedef {import("../types.js").YardState} YardState */
/** @typedef {import("../types.js").AskedView} AskedView */

const VERDICTS = Object.freeze({ take: "Take it", swap: "Swap", "put back": "Put it back" });
const MARKS = Object.freeze(["knot", "sapwood", "check", "split", "wane", "stain", "pith", "hole", "run-out", "other"]);
const RINGS = Object.freeze(["flat", "rift", "quarter"]);
const FIELDS = Object.freeze(/** @type {const} */ (["length", "width", "price"]));
/** What is typed of one board and not of the next. */
const OF_ONE_BOARD = Object.freeze(["length", "width", "price", "name", "defects", "rings"]);
/** @type {Record<string, string>} */
const LABELS = Object.freeze({ length: "Length", width: "Width", price: "Its price" });

export class YardDesk extends LitElement {
  /** @override */
  static properties = { state: { attribute: false }, kept: { type: Boolean }, draft: { state: true }, field: { state: true }, marking: { state: true }, taken: { state: true } };

  constructor() {
    super();
    /** @type {YardState | null} */
    this.state = null;
    /** whether the piece is one that is kept, and so can have a rack */
    this.kept = false;
    /** @type {Record<string, string>} */
    this.draft = { length: "", width: "", price: "", wood: "", name: "", defects: "", rings: "" };
    /** @type {string} */
    this.field = "length";
    this.marking = false;
    /** whether the pile as it is was taken away as a file */
    this.taken = false;
    /** the form as it was sent; empty before */
    this.sent = { draft: this.draft, field: this.field, mark: "" };
  }

  /** @override @param {import("lit").PropertyValues<this>} changed */
  willUpdate(changed) {
    if (changed.has("state") && changed.get("state")?.pile !== this.state?.pile) this.taken = false;
  }

  /** @override */
  createRenderRoot() {
    return this; // the styles of the page are ours as well
  }

  /** @override */
  render() {
    const { state } = this;
    if (!state) return nothing;
    if (!state.answer) return html`<p class="notice" role="status">${this.#opening(state)}</p>`;
    return html`${this.#standing(state)} ${this.#board(state)} ${this.#pile(state)}`;
  }

  /** @param {YardState} state */
  #opening(state) {
    return state.faults.length ? allTold(state.faults).join(" ") : "Looking at what the piece asks for ...";
  }

  /** @param {YardState} state */
  #standing({ answer, faults, judged, against, busy }) {
    if (!answer) return nothing;
    const verdict = VERDICTS[/** @type {keyof typeof VERDICTS} */ (answer.verdict)] ?? "";
    const covered = Math.floor(answer.coveredPct);
    return html`
      <section class="verdict ${busy ? "busy" : ""}" data-verdict=${answer.verdict} aria-live="polite">
        ${judged && verdict
          ? html`<p class="word">${against ? `Board ${judged.name}: your way` : `${verdict}: board ${judged.name}`}</p>
              <p>${answer.reason}${answer.gains.length ? ` For: ${answer.gains.join(", ")}.` : ""}</p>
              ${answer.giveBack.length ? html`<p><strong>Give back ${answer.giveBack.join(", ")}.</strong></p>` : nothing}
              <button type="button" class="key" ?disabled=${busy} @click=${() => this.#tell("other-way")}>
                ${against ? "As advised after all" : answer.verdict === "put back" ? "Take it all the same" : "Put it back all the same"}
              </button>`
          : html`<p class="word">${answer.enough ? "Enough" : "Turn the first board"}</p>`}
        ${faults.map((each) => html`<p class="fault">${told(each)}</p>`)}
        <p class="cover">
          <meter min="0" max="100" .value=${covered} aria-label="Covered"></meter>
          ${answer.enough ? `The pile is enough. ${answer.spare ?? ""}` : `Covered: ${covered} %`}
        </p>
        ${answer.missing.length
          ? html`<details>
              <summary>Still without wood</summary>
              <ul>
                ${answer.missing.map((each) => html`<li>${each.label}${each.count > 1 ? html` <b>× ${each.count}</b>` : nothing} <span>${each.size}</span></li>`)}
              </ul>
            </details>`
          : nothing}
      </section>
    `;
  }

  /** @param {YardState} state */
  #board({ answer, pile, busy }) {
    if (!answer) return nothing;
    const { draft } = this;
    const asked = answer.asked;
    const wood = draft["wood"] || (asked[0] ? woodOf(asked[0]) : "");
    const ready = Boolean(draft["length"] && draft["width"] && wood) && !busy;
    return html`
      <form class="board" @submit=${(/** @type {Event} */ event) => this.#judge(event, wood)} autocomplete="off">
        <fieldset class="woods">
          <legend>Board <input aria-label="Name" .value=${draft["name"] || nextName(pile)} @input=${this.#write("name")} size="4" /> is</legend>
          ${asked.map(
            (each) => html`<label>
              <input type="radio" name="wood" .checked=${woodOf(each) === wood} @change=${() => this.#set({ wood: woodOf(each) })} />
              <span>${each.thickness} ${each.species}<small>${each.amount}</small></span>
            </label>`,
          )}
        </fieldset>
        <div class="sizes">
          ${FIELDS.map(
            (name) => html`<label class=${this.field === name ? "active" : ""}>
              ${LABELS[name]}
              <input
                name=${name}
                inputmode="none"
                .value=${draft[name] ?? ""}
                @focus=${() => (this.field = name)}
                @input=${this.#write(name)}
                placeholder=${name === "price" ? "none" : answer.units}
              />
            </label>`,
          )}
        </div>
        ${this.#keys(answer.units)} ${this.#rings()} ${this.#marks(answer.units)}
        <button class="key judge" ?disabled=${!ready}>${busy ? "Judging ..." : "Judge this board"}</button>
      </form>
    `;
  }

  /** @param {string} units */
  #keys(units) {
    const rows = KEYS[this.field === "price" ? "money" : units === "in" ? "in" : "mm"];
    const name = { back: "Take the last away", clear: "Clear" };
    return html`<div class="pad" role="group" aria-label=${`Keys for ${LABELS[this.field] ?? "the mark"}`} data-columns=${rows[0]?.length ?? 4}>
      ${rows.flat().map(
        (key) => html`<button type="button" class="key" aria-label=${name[/** @type {keyof typeof name} */ (key)] ?? key} @click=${() => this.#press(key)}>
          ${key === "back" ? "⌫" : key === "clear" ? "C" : key}
        </button>`,
      )}
    </div>`;
  }

  /** How the rings stand in the end of the board: one key each, and the same key again where nobody looked. */
  #rings() {
    const { draft } = this;
    return html`<div class="rings" role="group" aria-label="Rings in the end of the board">
      <span>Rings</span>
      ${RINGS.map(
        (name) => html`<button
          type="button"
          class="key"
          aria-pressed=${draft["rings"] === name ? "true" : "false"}
          @click=${() => this.#set({ rings: draft["rings"] === name ? "" : name })}
        >
          ${name}
        </button>`,
      )}
    </div>`;
  }

  /** @param {string} units */
  #marks(units) {
    const { draft } = this;
    const marks = (draft["defects"] ?? "").split(";").map((each) => each.trim()).filter(Boolean);
    return html`
      ${marks.length
        ? html`<ul class="marks">
            ${marks.map((mark) => html`<li>${markInWords(mark)} <button type="button" class="key quiet" @click=${() => this.#set({ defects: marks.filter((each) => each !== mark).join("; ") })}>Take off</button></li>`)}
          </ul>`
        : nothing}
      ${this.marking
        ? html`<fieldset class="mark">
            <legend>A mark on the board, in ${unitWord(units)}</legend>
            <label>Kind <select name="kind">${MARKS.map((kind) => html`<option>${kind}</option>`)}</select></label>
            ${[["x", "From the left end"], ["y", "From the lower edge"], ["l", "Length"], ["w", "Width"]].map(
              ([name, label]) => html`<label>${label} <input name=${name} inputmode=${units === "in" ? "text" : "decimal"} autocomplete="off" /></label>`,
            )}
            <label>On <select name="face"><option value="through">both faces</option><option value="face">the face</option><option value="back">the back</option></select></label>
            <button type="button" class="key" @click=${() => this.#mark(units)}>Mark it</button>
            <button type="button" class="key quiet" @click=${() => (this.marking = false)}>No mark</button>
          </fieldset>`
        : html`<button type="button" class="key wide" @click=${() => (this.marking = true)}>Knot, check or sapwood ...</button>`}
    `;
  }

  /** @param {YardState} state */
  #pile({ answer, pile, held, replaces, busy }) {
    if (!pile.length) return nothing;
    return html`
      <section class="pile">
        <h2>The pile</h2>
        <ul class="stacks">${answer?.stacks.map((each) => html`<li>${each}</li>`)}</ul>
        <ul>
          ${pile.map(
            (board) => html`<li>
              <b>${board.name}</b> <span>${inWords(board)}</span>
              <button type="button" class="key quiet" aria-label=${`Put back ${board.name}`} ?disabled=${busy} @click=${() => this.#tell("drop-board", board.name)}>Put back</button>
            </li>`,
          )}
        </ul>
        ${held ? nothing : html`<p class="fault" role="status">The pile is ${keptWords(false)}.</p>`}
        <p role="status">${replaces}</p>
        ${this.kept ? html`<button type="button" class="key wide main" ?disabled=${busy} @click=${() => this.#tell("take-pile", replaces !== "")}>${replaces ? "Take the pile in its place" : "Lay the piece out on this pile"}</button>` : nothing}
        <button type="button" class="key wide" @click=${() => this.#keep()}>Keep the pile as a rack file</button>
        <p role="status">${this.taken ? html`It is <b>pile.csv</b>, where your downloads go.${this.kept ? nothing : html` Start the program with it, <code>--rack pile.csv</code>, to lay the piece out on these boards.`}` : nothing}</p>
      </section>
    `;
  }

  #keep() {
    this.taken = false;
    this.#tell("keep-pile");
  }

  /** @param {Record<string, string>} change */
  #set(change) {
    this.draft = { ...this.draft, ...change };
  }

  /** @param {string} name */
  #write(name) {
    return (/** @type {Event} */ event) => this.#set({ [name]: /** @type {HTMLInputElement} */ (event.target).value });
  }

  /** @param {string} key */
  #press(key) {
    this.#set({ [this.field]: typed(this.draft[this.field] ?? "", key) });
  }

  /** @param {string} units */
  #mark(units) {
    const value = (/** @type {string} */ name) => {
      const field = this.querySelector(`.mark [name=${name}]`);
      return /** @type {HTMLInputElement} */ (field).value.trim();
    };
    const at = (/** @type {string} */ name) => sized(value(name) || "0", units);
    const mark = `${value("kind")} at ${at("x")} x ${at("y")}, ${at("l")} x ${at("w")} ${value("face")}`;
    this.#set({ defects: [this.draft["defects"], mark].filter(Boolean).join("; ") });
    this.marking = false;
  }

  /** @param {Event} event @param {string} wood */
  #judge(event, wood) {
    event.preventDefault();
    const { state, draft } = this;
    if (!state?.answer) return;
    const units = state.answer.units;
    const [thickness = "", ...species] = wood.split(" ");
    /** @type {TypedBoard} */
    const board = Object.freeze({
      name: draft["name"] || nextName(state.pile),
      species: species.join(" "),
      thickness,
      length: sized(draft["length"] ?? "", units),
      width: sized(draft["width"] ?? "", units),
      price: draft["price"] ?? "",
      defects: draft["defects"] ?? "",
      rings: draft["rings"] ?? "",
    });
    this.sent = { draft, field: this.field, mark: this.#markWritten() };
    this.#tell("judge-board", board);
  }

  /** The board is judged: the next one is of the same wood. What was written of it meanwhile stays. */
  clear() {
    const { draft, sent } = this;
    const same = OF_ONE_BOARD.filter((name) => draft[name] === sent.draft[name]);
    this.#set(Object.fromEntries(same.map((name) => [name, ""])));
    if (same.length === OF_ONE_BOARD.length && this.field === sent.field) this.field = "length";
    if (this.#markWritten() === sent.mark) this.marking = false;
  }

  /** What stands in the fields of a mark that is not made yet. */
  #markWritten() {
    return [...this.querySelectorAll(".mark input, .mark select")].map((field) => /** @type {HTMLInputElement} */ (field).value).join("|");
  }

  /** @param {string} event @param {unknown} [detail] */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}

/** @param {AskedView} asked */
function woodOf(asked) {
  return `${asked.thickness} ${asked.species}`;
}
