/**
 * What is done with the part that is picked: moved by keys, put on another board, held, let go, cut.
 *
 * @fires nudge-part detail: {steps, fine}
 * @fires to-board   detail: board; empty for the next
 * @fires hold-part  detail: whether to its place
 * @fires nearby
 * @fires boards-act
 * @fires put-down
 */

import { LitElement, html, nothing } from "lit";
import { placedAt } from "../lib/boards.js";

/** @typedef {import("../board-types.js").BoardsState} BoardsState */

/** @type {ReadonlyArray<readonly [string, string, [number, number]]>} */
const WAYS = [
  ["←", "To the left", [-1, 0]],
  ["→", "To the right", [1, 0]],
  ["↑", "Up", [0, 1]],
  ["↓", "Down", [0, -1]],
];

export class PickedPart extends LitElement {
  /** @override */
  static properties = { state: { attribute: false } };

  constructor() {
    super();
    /** @type {BoardsState | null} */
    this.state = null;
  }

  /** @override */
  createRenderRoot() {
    return this; // the styles of the page are ours as well
  }

  /** @override */
  render() {
    const { state } = this;
    if (!state?.view || !state.picked) return nothing;
    const { view, picked, judged } = state;
    const there = placedAt(view.boards, picked);
    const part = there?.part ?? view.loose.find((each) => each.name === picked);
    if (!part) return nothing;
    const cut = there?.part.cut ?? false;
    return html`<section class="picked" aria-label="The part picked" tabindex="-1">
      <p class="name"><b>${part.label}</b> <span>${part.size}</span></p>
      <p class=${judged && !judged.fits ? "where bad" : "where"} role="status">${this.#where(there?.board.name ?? "", cut)}</p>
      <div class="ways">
        ${cut ? nothing : this.#moving(there?.board.root ?? "")}
        ${part.held ? html`<button type="button" class="key" @click=${() => this.#act({ act: "let go", part: picked })}>Let go</button>` : nothing}
        ${there
          ? html`<button type="button" class="key" @click=${() => this.#act({ act: cut ? "uncut" : "cut", part: picked, board: there.board.name })}>
              ${cut ? "Not cut after all" : "Cut"}
            </button>`
          : nothing}
        <button type="button" class="key quiet" @click=${() => this.#tell("put-down")}>Put it down</button>
      </div>
    </section>`;
  }

  /** @param {string} drawing @param {boolean} cut */
  #where(drawing, cut) {
    const judged = this.state?.judged;
    if (cut) return "Cut; it stays where it is.";
    if (!judged) return drawing ? "Looking ..." : "It has no place yet: choose a board.";
    return `${upper(judged.words)}${judged.fits ? "" : ` ${judged.remedy}`}`;
  }

  /** @param {string} root */
  #moving(root) {
    const { state } = this;
    const boards = [...new Set(state?.view?.boards.filter((each) => each.takes).map((each) => each.root))];
    const judged = state?.judged;
    const open = judged?.atMm === null || judged?.atMm === undefined;
    return html`
      <label class="board-of"><span>Board</span>
        <select aria-label="Board" @change=${(/** @type {Event} */ event) => this.#tell("to-board", /** @type {HTMLSelectElement} */ (event.target).value)}>
          ${(judged?.board ?? root) ? nothing : html`<option value="">choose</option>`}
          ${boards.map((each) => html`<option .selected=${each === (judged?.board ?? root)}>${each}</option>`)}
        </select>
      </label>
      ${open
        ? nothing
        : html`<div class="arrows" role="group" aria-label="Move it">
            ${WAYS.map(([sign, label, steps]) => html`<button type="button" class="key" aria-label=${label} @click=${() => this.#tell("nudge-part", { steps, fine: false })}>${sign}</button>`)}
          </div>`}
      ${judged?.fits && !open ? html`<button type="button" class="key main" @click=${() => this.#tell("hold-part", true)}>Hold it here</button>` : nothing}
      ${judged && !judged.fits && judged.better && judged.betterAtMm !== null
        ? html`<button type="button" class="key main" @click=${() => this.#tell("nearby")}>Put it ${judged.better}</button>`
        : nothing}
      ${judged ? html`<button type="button" class="key" @click=${() => this.#tell("hold-part", false)}>Anywhere on ${judged.board}</button>` : nothing}
    `;
  }

  /** @param {Record<string, unknown>} act */
  #act(act) {
    this.#tell("boards-act", act);
  }

  /** @param {string} event @param {unknown} [detail] */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}

/** @param {string} words */
function upper(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
