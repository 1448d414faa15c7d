/**
 * The bench: one step in large type, its clock, its sizes as measured; and what can be done while something dries.
 *
 * @fires tell        detail: what was done
 * @fires take-back   detail: the size that is as planned again
 * @fires choose-step detail: key of the step to look at; empty for the next
 * @fires apply-remedy detail: what mends a finding
 * @fires seen        what was not taken has been seen
 */

import { LitElement, html, nothing } from "lit";
import { repeat } from "lit/directives/repeat.js";
import { clock, heldBy, ready, resting, shownSize, soonestFirst, staying, typedSize } from "../lib/bench.js";
import { allTold } from "../lib/faults.js";

/** @typedef {import("../types.js").BenchState} BenchState */
/** @typedef {import("../types.js").StepCard} StepCard */
/** @typedef {import("../types.js").CardPart} CardPart */
/** @typedef {import("../types.js").FaultView} FaultView */

const TICK_MS = 1000;

/** How long another step is on show before its keys count: the second of two quick taps was meant for the one before. */
const SETTLING_MS = 400;

/** How many things that dry are told above the step; the others wait behind a line, so that the step is in sight. */
const IN_SIGHT = 2;

export class BenchDesk extends LitElement {
  /** @override */
  static properties = { state: { attribute: false }, now: { state: true }, wrong: { state: true } };

  #tick = 0;
  /** key of the step on show */
  #inHand = "";
  /** the step on show and whether it is done; what its keys do goes by it */
  #shown = "";
  /** whether that came so lately that a press may be meant for what stood there before */
  #settling = false;

  constructor() {
    super();
    /** @type {BenchState | null} */
    this.state = null;
    this.now = Date.now();
    /** the size whose figure cannot be read */
    this.wrong = "";
  }

  /** @override */
  createRenderRoot() {
    return this;
  }

  /** @override */
  connectedCallback() {
    super.connectedCallback();
    this.#tick = window.setInterval(() => (this.now = Date.now()), TICK_MS);
  }

  /** @override */
  disconnectedCallback() {
    super.disconnectedCallback();
    clearInterval(this.#tick);
  }

  /** @override */
  render() {
    const { state } = this;
    if (!state) return nothing;
    const told = this.#told(state);
    if (!state.work) return html`${told}${state.faults.length ? nothing : html`<p role="status">Working out what is to be done ...</p>`}`;
    const step = staying(state.work.steps, state.bench?.done ?? {}, { asked: state.chosen, inHand: this.#inHand }, this.now);
    this.#inHand = step?.key ?? "";
    this.#settle(step ? `${step.key} ${Boolean(state.bench?.done[step.key])}` : "");
    return html`${told} ${this.#progress(state)} ${this.#drying(state)} ${step ? this.#card(state, step) : html`<p class="all-done">Everything is done.</p>`} ${this.#misfits(state)} ${this.#meanwhile(state, step)} ${this.#names(state)} ${this.#all(state, step)}`;
  }

  /** Another card lies under the hand: its keys count once it is drawn and was seen for a moment. @param {string} shown */
  #settle(shown) {
    const before = this.#shown;
    this.#shown = shown;
    if (!before || before === shown) return;
    this.#settling = true;
    requestAnimationFrame(() => setTimeout(() => this.#settled(shown), SETTLING_MS));
  }

  /** @param {string} shown */
  #settled(shown) {
    if (shown !== this.#shown) return;
    this.#settling = false;
    this.requestUpdate();
  }

  /** A press on the card, which counts for what it was shown for. @param {() => void} press */
  #once(press) {
    return () => {
      if (!this.#settling) press();
    };
  }

  /** What went wrong, and what was not taken until it is seen. @param {BenchState} state */
  #told({ faults, refused }) {
    if (!faults.length && !refused.length) return nothing;
    return html`<div class="notice bad" role="alert">
      ${faults.length ? html`<p>${words(faults)}</p>` : nothing}
      ${refused.map((each) => html`<p>Not taken: ${words(each.faults)}</p>`)}
      ${refused.length ? html`<button type="button" class="key" @click=${() => this.dispatchEvent(new CustomEvent("seen", { bubbles: true }))}>I have seen it</button>` : nothing}
    </div>`;
  }

  /** @param {BenchState} state */
  #progress({ work, bench, unsent, held, working }) {
    const steps = work?.steps ?? [];
    const count = steps.filter((step) => bench?.done[step.key]).length;
    return html`<p class="progress">
      <meter min="0" max=${steps.length} .value=${count} aria-label="Steps done"></meter>
      ${count} of ${steps.length} steps done${unsent ? html` · <b>${unsent} not sent yet, ${held ? "kept on this device" : "and lost when this page is closed"}</b>` : nothing}
      <span role="status">${working ? "Working out what follows ..." : ""}</span>
    </p>`;
  }

  /** @param {BenchState} state */
  #drying({ work, bench }) {
    const rests = soonestFirst(resting(work?.steps ?? [], bench?.done ?? {}, this.now));
    if (!rests.length) return nothing;
    const [soon, later] = [rests.slice(0, IN_SIGHT), rests.slice(IN_SIGHT)];
    return html`<ul class="drying" aria-label="Drying and resting">${soon.map(rest)}</ul>
      ${later.length
        ? html`<details class="later">
            <summary>${later.length} more drying or resting</summary>
            <ul class="drying">${later.map(rest)}</ul>
          </details>`
        : nothing}`;
  }

  /** @param {BenchState} state @param {StepCard} step */
  #card({ bench, work }, step) {
    const done = bench?.done ?? {};
    const waits = heldBy(step, resting(work?.steps ?? [], done, this.now));
    const missing = step.needs.map(({ key }) => key).filter((key) => !done[key]);
    const isDone = Boolean(done[step.key]);
    return html`<article class="step" aria-live="polite" data-key=${step.key}>
      <p class="phase">${step.phase}${step.handsOn ? ` · ${step.handsOn} by hand` : ""}${step.wait ? ` · then ${step.wait}` : ""}</p>
      <h2>${step.title}</h2>
      ${step.parts.length ? html`<p class="of">${step.partsWords}</p>` : nothing}
      ${waits.map((rest) => html`<p class="before">Not yet: ${clock(rest.leftMin)} left to dry or rest after “${rest.step.title}”.</p>`)}
      ${step.cautions.length ? html`<div class="caution" role="note"><h3>Caution</h3>${step.cautions.map((line) => html`<p>${line}</p>`)}</div>` : nothing}
      ${step.lines.length ? html`<ol class="lines">${step.lines.map((line) => html`<li>${line}</li>`)}</ol>` : nothing}
      ${step.once ? html`<p class="once">Happens once: photograph it.</p>` : nothing}
      ${missing.length ? html`<p class="before">Before it: ${missing.map((key, index) => html`${index ? ", " : ""}<button type="button" class="key quiet" @click=${() => this.#choose(key)}>${this.#title(key)}</button>`)}</p>` : nothing}
      ${this.#clock(step)}
      ${step.parts.length ? this.#sizes(step) : nothing}
      <div class="keys">
        ${isDone
          ? html`<button type="button" class="key" aria-disabled=${String(this.#settling)} @click=${this.#once(() => this.#tell({ kind: "step open", subject: step.key }))}>Not done after all</button>
              <button type="button" class="key main" aria-disabled=${String(this.#settling)} @click=${this.#once(() => this.#choose(""))}>On to the next</button>`
          : html`<button type="button" class="key main done" aria-disabled=${String(this.#settling)} @click=${this.#once(() => this.#finish(step))}>Done</button>`}
      </div>
    </article>`;
  }

  /** @param {StepCard} step */
  #clock(step) {
    const bench = this.state?.bench;
    const began = bench?.running[step.key];
    const ran = (bench?.ranMin[step.key] ?? 0) + (began ? (this.now - Date.parse(began)) / 60_000 : 0);
    return html`<p class="clock">
      <button type="button" class="key" aria-pressed=${String(Boolean(began))} aria-disabled=${String(this.#settling)} @click=${this.#once(() => this.#tell({ kind: began ? "timer stopped" : "timer started", subject: step.key }))}>
        ${began ? "Stop the clock" : "Start the clock"}
      </button>
      ${ran ? html`<b role="timer">${clock(ran)}</b>` : nothing} ${step.handsOn ? html`<span>reckoned ${step.handsOn}</span>` : nothing}
    </p>`;
  }

  /** @param {StepCard} step */
  #sizes(step) {
    return html`<details class="sizes">
      <summary>Sizes as planned, and as you measure them</summary>
      ${repeat(step.parts, (part) => `${step.key} ${part.name}`, (part) => html`<fieldset><legend>${part.label}</legend>${part.sizes.map(([name, planned, beside]) => this.#size(`${part.name}.${name}`, `${part.label}, ${name}`, [name, planned, beside]))}</fieldset>`)}
    </details>`;
  }

  /** Sizes that are of no one part: an opening, a clear width. @param {BenchState} state */
  #names({ work }) {
    if (!work?.names.length) return nothing;
    return html`<details class="sizes named">
      <summary>Openings and other sizes of the whole piece, as you measure them</summary>
      <fieldset><legend>What is measured here counts for all that is not cut yet</legend>${work.names.map(([name, label, planned]) => this.#size(name, label, [label, planned, ""]))}</fieldset>
    </details>`;
  }

  /** What is made and no longer fits. @param {BenchState} state */
  #misfits({ work, working, said }) {
    const told = work?.findings ?? [];
    const heard = html`<p class="said" role="status">${said}</p>`;
    if (!told.length) return heard;
    return html`${heard}<section class="misfits" aria-label="What is made, and what follows">
      <h2>What is made, and what follows</h2>
      <ul>
        ${told.map(
          (found) => html`<li class=${found.severity}>
            <p><b>${found.where}.</b> ${found.message}.</p>
            <p class="way">${found.advice}</p>
            ${(found.remedies ?? []).filter((each) => each.here).map((each) => html`<p class="remedy"><button type="button" class="key" ?disabled=${working} @click=${() => this.#mend(each)}>${each.words}</button></p>`)}
          </li>`,
        )}
      </ul>
    </section>`;
  }

  /** @param {import("../types.js").Remedy} remedy */
  #mend(remedy) {
    this.dispatchEvent(new CustomEvent("apply-remedy", { detail: remedy, bubbles: true }));
  }

  /** @param {string} subject @param {string} label @param {[string, string, string]} told name, planned, what is told beside it */
  #size(subject, label, [name, planned, beside]) {
    const units = this.state?.work?.units ?? "mm";
    const shown = shownSize(this.state?.bench?.measured[subject]?.written, units);
    const wrong = this.wrong === subject || this.state?.refused.some(({ event }) => event.subject === subject);
    return html`<label>
      <span>${name} <b>${planned}</b>${beside ? html` <small>${beside}</small>` : nothing}</span>
      <input
        inputmode=${units === "in" ? "text" : "decimal"}
        autocomplete="off"
        placeholder=${`measured, ${units}`}
        aria-label=${`${label} as measured`}
        aria-invalid=${String(Boolean(wrong))}
        .value=${shown}
        @change=${(/** @type {Event} */ event) => this.#measure(event, subject, units)}
      />
    </label>`;
  }

  /** @param {BenchState} state @param {StepCard | undefined} step */
  #meanwhile({ work, bench }, step) {
    const done = bench?.done ?? {};
    const can = ready(work?.steps ?? [], new Set(Object.keys(done))).filter((each) => each !== step);
    const rests = resting(work?.steps ?? [], done, this.now);
    return html`${this.#offer("What can be done as well", can.filter((each) => !heldBy(each, rests).length))}
    ${this.#offer("What waits for something to dry or rest", can.filter((each) => heldBy(each, rests).length))}`;
  }

  /** @param {string} title @param {readonly StepCard[]} steps */
  #offer(title, steps) {
    if (!steps.length) return nothing;
    return html`<section class="meanwhile">
      <h2>${title}</h2>
      <ul>${steps.map((each) => html`<li><button type="button" class="key quiet" @click=${() => this.#choose(each.key)}>${each.title}</button>${each.handsOn ? html` <span>${each.handsOn}</span>` : nothing}</li>`)}</ul>
    </section>`;
  }

  /** @param {BenchState} state @param {StepCard | undefined} step */
  #all({ work, bench }, step) {
    return html`<details class="all">
      <summary>All steps</summary>
      <ol>${work?.steps.map((each) => html`<li class=${bench?.done[each.key] ? "is-done" : ""} aria-current=${each === step ? "step" : nothing}><button type="button" class="key quiet" @click=${() => this.#choose(each.key)}>${each.title}</button></li>`)}</ol>
    </details>`;
  }

  /** @param {string} key */
  #title(key) {
    return this.state?.work?.steps.find((step) => step.key === key)?.title ?? key;
  }

  /** @param {StepCard} step */
  #finish(step) {
    if (this.state?.bench?.running[step.key]) this.#tell({ kind: "timer stopped", subject: step.key });
    this.#tell({ kind: "step done", subject: step.key });
    this.#choose("");
  }

  /** @param {Event} event @param {string} subject @param {string} units */
  #measure(event, subject, units) {
    const text = /** @type {HTMLInputElement} */ (event.target).value;
    if (!text.trim()) {
      this.wrong = "";
      if (this.state?.bench?.measured[subject]) this.dispatchEvent(new CustomEvent("take-back", { detail: subject, bubbles: true }));
      return;
    }
    const written = typedSize(text, units);
    this.wrong = written ? "" : subject;
    if (written) this.#tell({ kind: "measured", subject, written });
  }

  /** @param {string} key */
  #choose(key) {
    this.#inHand = "";
    this.dispatchEvent(new CustomEvent("choose-step", { detail: key, bubbles: true }));
    scrollTo({ top: 0 });
  }

  /** @param {Omit<import("../types.js").BenchEvent, "at" | "key">} what */
  #tell(what) {
    this.dispatchEvent(new CustomEvent("tell", { detail: what, bubbles: true }));
  }
}

/** @param {readonly FaultView[]} faults */
function words(faults) {
  return allTold(faults).join(" ");
}

/** What dries or rests, and for how long yet. @param {ReturnType<typeof resting>[number]} of */
function rest({ step, leftMin, clampedMin }) {
  return html`<li>
    <b>${clock(clampedMin || leftMin)}</b>
    <span>${clampedMin ? "in clamps" : "to dry or rest"}: ${step.title}${clampedMin ? `; then ${clock(leftMin - clampedMin)} to cure` : ""}</span>
  </li>`;
}
