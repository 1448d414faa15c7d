/**
 * The boards of a piece: how good the layout is, what is marked, every board, what has no wood, what is left over.
 *
 * @fires boards-step  detail: undo, redo or write
 * @fires left-over    detail: whether it is taken up
 */

import { LitElement, html, nothing } from "lit";
import { told } from "../lib/faults.js";
import { findingElements } from "./findings.js";

/** @typedef {import("../board-types.js").BoardsState} BoardsState */
/** @typedef {import("../board-types.js").BoardsView} BoardsView */
/** @typedef {import("../board-types.js").NotesView} NotesView */

/** @type {Record<string, [number, number]>} */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

export class BoardsDesk extends LitElement {
  /** @override */
  static properties = { state: { attribute: false } };

  #worked = "";

  constructor() {
    super();
    /** @type {BoardsState | null} */
    this.state = null;
    this.pressed = this.pressed.bind(this);
  }

  /** @override */
  createRenderRoot() {
    return this; // the styles of the page are ours as well
  }

  /** @override */
  connectedCallback() {
    super.connectedCallback();
    document.addEventListener("keydown", this.pressed);
  }

  /** @override */
  disconnectedCallback() {
    super.disconnectedCallback();
    document.removeEventListener("keydown", this.pressed);
  }

  /** @override @param {Map<PropertyKey, unknown>} changed */
  updated(changed) {
    const before = /** @type {BoardsState | null | undefined} */ (changed.get("state"));
    const { state } = this;
    if (!state || !changed.has("state")) return;
    if (!state.picked) this.#worked = "";
    else if (state.judged || state.picked !== before?.picked) this.#follow(state);
    if (!state.picked && before?.picked && !document.activeElement?.matches("body, .key")) this.#focus("h2");
  }

  /** @override */
  render() {
    const { state } = this;
    if (!state) return nothing;
    const { view, faults, laying } = state;
    return html`
      ${faults.length ? html`<div class="notice bad" role="alert">${faults.map((each) => html`<p>${refused(each)}</p>`)}</div>` : nothing}
      ${view ? this.#view(view, state) : html`<p role="status">${laying ? "Laying the boards out ..." : nothing}</p>`}
    `;
  }

  /** @param {BoardsView} view @param {BoardsState} state */
  #view(view, state) {
    const { search } = state;
    const found = search.best;
    return html`
      <p class="lead">${view.lead}</p>
      ${facts(view.facts)}
      ${view.rack ? this.#notes(view.notes, state) : html`<rack-none ?kept=${view.notes.kept === "version"}></rack-none><p class="said" role="status">${state.laying ? "Laying the boards out ..." : state.said}</p>`}
      ${view.boards.length ? html`<board-search .state=${search} .proven=${view.proven}></board-search>` : nothing}
      ${found
        ? html`<details class="better">
            <summary>Look at the better layout</summary>
            ${facts(found.facts)}
            ${found.boards.map((board) => html`<board-leaf .board=${board} still></board-leaf>`)}
          </details>`
        : nothing}
      ${view.loose.length ? this.#loose(view, state) : nothing}
      ${view.boards.length ? html`<h2 tabindex="-1">The layout <small>${view.scale}</small></h2>` : nothing}
      <div class=${state.laying ? "leaves laying" : "leaves"}>
        ${view.boards.map((board) => html`<board-leaf .board=${board} .state=${state}></board-leaf>`)}
      </div>
      ${view.sheets.length ? html`<h2>Sheets</h2>${view.sheets.map((board) => html`<board-leaf .board=${board} still></board-leaf>`)}` : nothing}
      ${view.offcuts.length
        ? html`<h2>Left over, worth keeping</h2>
            <ul class="left-over">${view.offcuts.map(([name, size]) => html`<li><b>${name}</b> <span>${size}</span></li>`)}</ul>`
        : nothing}
      ${view.findings.length ? html`<h2>What the rules found</h2>${findingElements(view.findings)}` : nothing}
      ${view.notes.text ? this.#text(view) : nothing}
      ${state.dragging && state.judged ? html`<p class=${state.judged.fits ? "on-its-way" : "on-its-way bad"} role="status">${state.judged.words}</p>` : nothing}
    `;
  }

  /** @param {NotesView} notes @param {BoardsState} state */
  #notes(notes, { laying, said, unwritten, view }) {
    const left = view?.loose.length ? view.lead : ""; // where a board was marked, the head of the page is far above
    return html`
      <div class="ways first">
        <button type="button" class="key" ?disabled=${!notes.undo || laying} @click=${() => this.#tell("boards-step", "undo")}>Undo</button>
        <button type="button" class="key" ?disabled=${!notes.redo || laying} @click=${() => this.#tell("boards-step", "redo")}>Redo</button>
        ${notes.kept === "file" && !notes.written
          ? html`<button type="button" class="key main" @click=${() => this.#tell("boards-step", "write")}>Write ${notes.place}</button>`
          : nothing}
        ${notes.text ? html`<a class="key quiet" href="api/boards/notes.yaml">Notes as a file</a>` : nothing}
      </div>
      <p class="said" role="status">${laying ? "Laying out the rest ..." : said}${said && !laying && left ? html` <span class="left">${left}</span>` : nothing}</p>
      ${notes.kept !== "version" && !notes.written
        ? html`<p class="unwritten">The plan and the packet do not know this yet${notes.kept === "file" ? `: it is in this program only until you write ${notes.place}` : ": take the notes as a file"}.</p>`
        : nothing}
      ${unwritten
        ? html`<div class="notice"><p>Marks you made here before were never written to the file.${notes.written ? nothing : " Taken up again they stand in place of what is marked now, which Undo brings back."}</p>
            <div class="ways">
              <button type="button" class="key" @click=${() => this.#tell("left-over", true)}>Take them up again</button>
              <button type="button" class="key quiet" @click=${() => this.#tell("left-over", false)}>Let them go</button>
            </div></div>`
        : nothing}
    `;
  }

  /** @param {BoardsView} view @param {BoardsState} state */
  #loose(view, state) {
    return html`<h2>Without wood</h2>
      <ul class="parts loose">
        ${view.loose.map(
          (each) => html`<li>
            <button type="button" class="key part" aria-pressed=${String(state.picked === each.name)} @click=${() => this.#tell("pick-part", each.name)}>
              <span>${each.label}</span> <small>${each.size}</small>
            </button>
          </li>`,
        )}
      </ul>
      ${state.picked && !state.worked && !state.dragging ? html`<picked-part .state=${state}></picked-part>` : nothing}`;
  }

  /** @param {BoardsView} view */
  #text(view) {
    return html`<details class="text">
      <summary>The bench notes</summary>
      ${view.more.length ? html`<ul>${view.more.map((line) => html`<li>${line}</li>`)}</ul>` : nothing}
      <pre tabindex="0" aria-label=${view.notes.name}>${view.notes.text}</pre>
    </details>`;
  }

  /** The keys go with the part from board to board; a finger stays where it is. @param {BoardsState} state */
  #follow(state) {
    const worked = `${state.picked} ${state.worked}`;
    const moved = worked !== this.#worked;
    this.#worked = worked;
    if (!moved || !document.activeElement?.matches(".part, .picked, .picked *, body")) return;
    setTimeout(() => { // once the elements below have set theirs
      const picked = this.querySelector(".picked");
      if (!(picked instanceof HTMLElement)) return;
      picked.focus({ preventScroll: true });
      picked.closest("board-leaf")?.scrollIntoView({ block: "nearest" });
    });
  }

  /** Keys for the part that is picked. @param {KeyboardEvent} event */
  pressed(event) {
    const { state } = this;
    if (!state?.picked || event.ctrlKey || event.metaKey || event.altKey) return;
    const typing = event.target instanceof Element && event.target.matches("input, select, textarea");
    const steps = ARROWS[event.key];
    if (event.key === "Escape") this.#tell("put-down");
    else if (typing) return;
    else if (steps) this.#tell("nudge-part", { steps, fine: event.shiftKey });
    else if (event.key === "b" || event.key === "PageDown") this.#tell("to-board", "");
    else if (event.key === "Enter" && state.judged?.fits && !(event.target instanceof Element && event.target.matches("button, a, summary"))) this.#tell("hold-part", true);
    else return;
    event.preventDefault();
  }

  /** @param {string} selector */
  #focus(selector) {
    const found = this.querySelector(selector);
    if (found instanceof HTMLElement) found.focus({ preventScroll: true });
  }

  /** @param {string} event @param {unknown} [detail] */
  #tell(event, detail) {
    this.dispatchEvent(new CustomEvent(event, { detail, bubbles: true }));
  }
}

/** @param {ReadonlyArray<readonly [string, string]>} rows */
function facts(rows) {
  return rows.length ? html`<dl class="facts">${rows.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>` : nothing;
}

/** @param {import("../types.js").FaultView} fault */
function refused(fault) {
  return fault.code === "cannot_lie" ? `It cannot lie there: ${fault.rule}. ${fault.remedy}` : told(fault);
}
