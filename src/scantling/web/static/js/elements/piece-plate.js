/**
 * The piece in 3D.
 *
 * @fires choose-part  detail: name, or empty to let go
 * @fires pick-edge    detail: its two ends, as the piece stands whole, while the state measures
 * @fires point-parts  detail: names under the mouse
 * @attr aria-busy     while a plan is worked out
 * @attr data-ready    once the piece is drawn
 *
 * Keyboard: see plate/turning.js; the same words are in its description for screen readers.
 */

import { Refused, askScene } from "../api/plan.js";
import { NO_PICTURE } from "../errors.js";
import { neighbour } from "../lib/caption.js";
import { STANDS } from "../lib/orbit.js";
import { Vector3 } from "three";
import { h } from "./build.js";
import { Model } from "./plate/model.js";
import { Stage } from "./plate/stage.js";
import { listen } from "./plate/turning.js";

/** @typedef {import("../types.js").State} State */
/** @typedef {import("../types.js").ShapeView} ShapeView */

const KEYS =
  "Arrow keys turn it, plus and minus come nearer and go away, 0 sets it back, " +
  "N and P go from part to part, Escape lets go.";

export class PiecePlate extends HTMLElement {
  /** @type {Stage | null} */
  #stage = null;
  /** @type {State | null} */
  #state = null;
  #asking = new AbortController();
  /** @type {{x: number, y: number} | null} */
  #hovered = null;
  #name = h("p", { class: "name", hidden: true });
  #said = h("p", { class: "state" }, "Drawing the piece");
  #room = h("p", { class: "tight-room", hidden: true });
  /** Where the picture comes from; a document that holds its own gives another. */
  askScene = askScene;

  connectedCallback() {
    this.tabIndex = 0;
    this.setAttribute("role", "application");
    this.setAttribute("aria-roledescription", "turnable picture");
    this.setAttribute("aria-label", `The piece in three dimensions. ${KEYS}`);
    this.append(this.#said, this.#name, this.#room);
    // the words of the page are seen first: a graphics card takes its time to get ready
    requestAnimationFrame(() => setTimeout(() => this.#begin()));
  }

  #begin() {
    try {
      this.#stage = new Stage(this);
    } catch {
      this.#said.textContent = NO_PICTURE;
      return;
    }
    this.#stage.pose = STANDS["corner"] ?? this.#stage.pose;
    this.#stage.drawn = () => this.#placeRoom();
    new ResizeObserver(() => this.#stage?.resize()).observe(this);
    this.#listen(this.#stage);
    if (this.#state?.shape) void this.#load(this.#state.shape, this.#state);
  }

  /** @param {Stage} stage */
  #listen(stage) {
    listen(this, {
      pose: () => stage.pose,
      move: (pose) => {
        stage.pose = pose;
        stage.ask();
      },
      tap: (x, y) => (this.#state?.measuring ? this.#pick(stage.edgeAt(x, y)) : this.#choose(stage.partAt(x, y))),
      hover: (x, y) => {
        const asked = this.#hovered !== null;
        this.#hovered = { x, y };
        if (x < 0) this.#hover(stage);
        else if (!asked) requestAnimationFrame(() => this.#hover(stage)); // however often the mouse tells its place
      },
      step: (way) => {
        const names = this.#state?.shape?.parts.map((part) => part.name) ?? [];
        this.#choose(neighbour(names, this.#state?.chosen ?? "", way));
      },
      letGo: () => this.#choose(""),
    });
  }

  /** @param {Stage} stage */
  #hover(stage) {
    if (!this.#hovered) return; // the mouse has left meanwhile
    const { x, y } = this.#hovered;
    this.#hovered = null;
    const name = x < 0 ? "" : stage.partAt(x, y);
    if (name !== (this.#state?.pointed[0] ?? "")) this.#point(name);
  }

  /** @param {string} name */
  #choose(name) {
    this.dispatchEvent(new CustomEvent("choose-part", { detail: name, bubbles: true }));
  }

  /** @param {import("./plate/edges.js").PickedEdge | null} edge */
  #pick(edge) {
    if (edge) this.dispatchEvent(new CustomEvent("pick-edge", { detail: edge.ends, bubbles: true }));
  }

  /** @param {string} name */
  #point(name) {
    this.dispatchEvent(new CustomEvent("point-parts", { detail: name ? [name] : [], bubbles: true }));
  }

  /** @param {State} state */
  set state(state) {
    const before = this.#state;
    this.#state = state;
    this.setAttribute("aria-busy", String(state.busy));
    this.#label(state);
    if (!state.shape && state.faults.length) this.#say("There is nothing to draw yet. What is in the way is told with the sizes.");
    if (state.shape && state.shape !== before?.shape) {
      void this.#load(state.shape, state);
      return;
    }
    const moved = [state.apart !== before?.apart, state.month !== before?.month, state.larger !== before?.larger];
    if (moved.includes(true) || state.plan !== before?.plan) this.#stand(state);
    if (moved.includes(true) || state.cut !== before?.cut || state.share !== before?.share) this.#cut(state);
    this.dress();
  }

  /** @param {State} state */
  #label(state) {
    const alone = (/** @type {string[]} */ parts) => (parts.length === 1 ? (parts[0] ?? "") : "");
    const name = alone(state.pointed) || state.chosen || alone(state.marked);
    const label = state.shape?.parts.find((part) => part.name === name)?.label ?? "";
    this.#name.textContent = label;
    this.#name.hidden = label === "";
  }

  /** @param {ShapeView} shape @param {State} state */
  async #load(shape, state) {
    const stage = this.#stage;
    if (!stage) return;
    this.#asking.abort();
    const asking = new AbortController();
    this.#asking = asking;
    try {
      const file = await this.askScene(state.shaped, asking.signal, state.shapedFrom);
      if (asking.signal.aborted) return;
      stage.show(Model.read(file, shape.parts));
      if (this.#state) this.#stand(this.#state);
      if (this.#state) this.#cut(this.#state);
      this.dress();
      stage.resize();
      this.#said.hidden = true;
      this.dataset["ready"] = shape.key;
    } catch (error) {
      if (asking.signal.aborted) return;
      this.#say(error instanceof Refused ? error.message : "The piece could not be drawn. Reload the page.");
    }
  }

  /** @param {string} words */
  #say(words) {
    this.#said.textContent = words;
    this.#said.hidden = false;
  }

  /** @param {State} state */
  #stand({ apart, month, larger, plan }) {
    this.#stage?.model?.stand({ apart, month, larger, year: plan?.year });
    const shown = plan?.year.months[month];
    this.#room.textContent = shown?.room ?? "";
    this.#room.classList.toggle("bad", shown?.binds ?? false);
    this.#stage?.light();
  }

  /** @param {State} state */
  #cut({ cut, share }) {
    this.#stage?.cutOpen(cut, share);
  }

  /** Edges picked and the measure between them; where the piece is pulled apart only their figures hold. */
  #mark() {
    const { stage, state } = { stage: this.#stage, state: this.#state };
    if (!stage?.model || !state) return;
    const drop = stage.model.root.position;
    const segments = state.picked.map((ends) => ends);
    if (state.measured) segments.push([state.measured.startM, state.measured.endM]);
    const whole = state.apart === 0 && state.month === 0;
    const drawn = segments.map(([from, to]) => /** @type {[Vector3, Vector3]} */ ([new Vector3(...from).add(drop), new Vector3(...to).add(drop)]));
    stage.marks.show(whole ? drawn : [], stage.ink(false).mark);
    stage.ask();
  }

  /** The room left stands beside its mark in the drawing, and clear of the name of the part. */
  #placeRoom() {
    const at = this.#stage?.tightPlace() ?? null;
    this.#room.hidden = !at || !this.#room.textContent;
    if (!at || this.#room.hidden) return;
    const x = Math.min(Math.max(4, at.x + 12), this.clientWidth - this.#room.offsetWidth - 4);
    const under = this.#name.hidden || x > this.#name.offsetLeft + this.#name.offsetWidth ? 4 : this.#name.offsetTop + this.#name.offsetHeight + 4;
    const y = Math.min(Math.max(under, at.y - 30), this.clientHeight - this.#room.offsetHeight - 4);
    this.#room.style.transform = `translate(${x}px, ${y}px)`;
  }

  /** Put the colors of the page and of the state on the parts. */
  dress() {
    const stage = this.#stage;
    if (!stage || !this.#state) return;
    stage.model?.dress(this.#state, stage.ink(this.#room.classList.contains("bad")));
    stage.darken(getComputedStyle(this).getPropertyValue("--shadow"));
    this.#mark();
  }

  /** @param {string} name of a place to stand */
  stand(name) {
    const pose = STANDS[name];
    if (!pose || !this.#stage) return;
    this.#stage.pose = pose;
    this.#stage.ask();
  }

  /** Where a part is seen on the page. @param {string} name */
  placeOf(name) {
    this.#stage?.draw();
    return this.#stage?.placeOf(name) ?? null;
  }
}
