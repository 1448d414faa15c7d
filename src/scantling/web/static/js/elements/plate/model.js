/** The parts of the piece in the scene: where they stand, pulled apart and through the year, and how they look. */

import {
  Box3,
  Color,
  Group,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  MeshStandardMaterial,
  Quaternion,
  SphereGeometry,
  Vector3,
} from "three";
import { arrisInk } from "./arris.js";
import { readGlb } from "../../lib/glb.js";
import { Form, sharedOf } from "./form.js";
import { seedOf, woodMaterial } from "./grain.js";

/** @typedef {import("../../types.js").PartView} PartView */
/** @typedef {import("../../types.js").YearView} YearView */
/** @typedef {import("../../lib/glb.js").Body} Body */
/** @typedef {import("./form.js").Shared} Shared */

/**
 * @typedef {object} Standing something that has its place
 * @property {Form} form
 * @property {number} index among those of its form
 * @property {Vector3} home
 * @property {Quaternion} turn
 * @property {Vector3} out where it goes when pulled apart
 * @property {Matrix4} matrix as it is drawn now
 *
 * @typedef {object} Wooden
 * @property {string} name
 * @property {string} tone
 * @property {number} seed
 * @property {Vector3} across direction of its width
 * @property {Box3} box at home
 * @property {number} fixed the line that stays, along `across` from its middle
 * @property {number} stretch as it is drawn now
 *
 * @typedef {Standing & Wooden} Placed
 * @typedef {Standing & {goesWith: Placed | undefined}} Loose a tenon, pin, clip...
 *
 * @typedef {object} Pose
 * @property {number} apart 0..1
 * @property {number} month place in the year, 0 as built
 * @property {number} larger how many times larger movement is drawn
 * @property {YearView | undefined} year
 */

/** Size of the mark at the tightest place, as a share of the piece's diagonal. */
const MARK = 0.011;
/** Used within one call each, so that nothing is made anew in every frame. */
const [AT, WHOLE, SHIFT, BOX, INK] = [new Vector3(), new Vector3(1, 1, 1), new Vector3(), new Box3(), new Color()];

export class Model {
  root = new Group();
  /** @type {Map<string, Placed>} */
  parts = new Map();
  /** @type {Form[]} forms of parts */
  forms = [];
  /** Of everything, as it is pulled apart now. */
  box = new Box3();
  #woods = { whole: woodMaterial(false), through: woodMaterial(true) };
  #ink = arrisInk(0xffffff);
  #looseInk = arrisInk(0x291f17);
  /** @type {Form[]} */
  #looseForms = [];
  /** @type {Loose[]} */
  #loose = [];
  /** Parts shown whole among those seen through, by their form. @type {Map<Form, Form>} */
  #lifted = new Map();
  /** @type {MeshStandardMaterial[]} */
  #looseWoods = [];
  /** @type {YearView | undefined} */
  #year;
  /** @type {Map<string, import("../../types.js").PartYearView>} */
  #moves = new Map();
  #mark = new Mesh(new SphereGeometry(1, 20, 12), new MeshBasicMaterial({ depthTest: false, transparent: true }));

  /**
   * @param {ArrayBuffer} file binary glTF
   * @param {readonly PartView[]} views
   * @returns {Model}
   */
  static read(file, views) {
    const { solids, bodies } = readGlb(file);
    const model = new Model();
    const shared = solids.map(() => /** @type {Shared | null} */ (null));
    const sharedAt = (/** @type {number} */ at) => (shared[at] ??= sharedOf(/** @type {import("../../lib/glb.js").Solid} */ (solids[at])));
    const seen = new Map(views.map((view) => [view.name, view]));
    for (const [bodiesOfForm, at] of alike(bodies, ({ name, extras, solid }) => (extras["loose"] || solid < 0 ? "" : `${solid} ${seen.get(name)?.tone ?? ""}`))) {
      const known = bodiesOfForm.flatMap((body) => (seen.has(body.name) ? [/** @type {[Body, PartView]} */ ([body, seen.get(body.name)])] : []));
      if (known.length) model.#placeParts(known, sharedAt(at));
    }
    model.parts = new Map(views.flatMap(({ name }) => (model.parts.has(name) ? [[name, /** @type {Placed} */ (model.parts.get(name))]] : [])));
    for (const [things, at] of alike(bodies, ({ extras, solid }) => (extras["loose"] ? String(solid) : ""))) {
      model.#placeLoose(things, sharedAt(at), /** @type {import("../../lib/glb.js").Solid} */ (solids[at]).color);
    }
    model.root.add(...[...model.forms, ...model.#looseForms].flatMap((form) => form.objects), model.#mark);
    model.#mark.visible = false;
    model.#mark.renderOrder = 9;
    model.stand({ apart: 0, month: 0, larger: 1, year: undefined });
    model.#mark.scale.setScalar(model.box.getSize(AT).length() * MARK);
    return model;
  }

  /** Materials that a cut goes through. */
  get materials() {
    return [this.#woods.whole, this.#woods.through, this.#ink, this.#looseInk, ...this.#looseWoods];
  }

  /** @param {Array<[Body, PartView]>} found parts of one form and tone @param {Shared} shared */
  #placeParts(found, shared) {
    const form = new Form(shared, this.#woods.whole, this.#ink, found.map(([body]) => body.name));
    form.faces.castShadow = true;
    form.faces.receiveShadow = true;
    const own = new Box3().setFromBufferAttribute(shared.positions);
    found.forEach(([body, view], index) => {
      const standing = stood(form, index, body);
      const seed = seedOf(view.name);
      form.dye(index, seed, INK.set(view.tone));
      form.place(index, standing.matrix);
      this.parts.set(view.name, {
        ...standing,
        name: view.name,
        tone: view.tone,
        seed,
        out: new Vector3(...view.explodeM),
        across: new Vector3(0, 1, 0).applyQuaternion(standing.turn),
        box: own.clone().applyMatrix4(standing.matrix),
        fixed: 0,
        stretch: 0,
      });
    });
    this.forms.push(form);
  }

  /**
   * Pulled apart they stand halfway between the two parts they hold.
   *
   * @param {Body[]} things of one form
   * @param {Shared} shared
   * @param {[number, number, number]} color
   */
  #placeLoose(things, shared, color) {
    const material = new MeshStandardMaterial({ color: new Color(...color), roughness: 0.85, metalness: 0 });
    const form = new Form(shared, material, this.#looseInk, [], things.length);
    things.forEach((body, index) => {
      const standing = stood(form, index, body);
      const between = /** @type {string[]} */ (body.extras["between"]).map((name) => this.parts.get(name)?.out);
      for (const each of between) if (each) standing.out.addScaledVector(each, 1 / between.length);
      this.#loose.push({ ...standing, goesWith: this.parts.get(String(body.extras["with"])) });
    });
    this.#looseForms.push(form);
    this.#looseWoods.push(material);
  }

  /**
   * Pull the piece apart, stretch its parts as the month has them, and set it down on its lowest part.
   *
   * @param {Pose} how
   */
  stand({ apart, month, larger, year }) {
    this.box.makeEmpty();
    if (year !== this.#year) this.#moves = new Map(year?.parts.map((each) => [each.name, each]));
    this.#year = year;
    for (const part of this.parts.values()) {
      const moves = this.#moves.get(part.name);
      part.fixed = moves?.fixedM ?? 0;
      part.stretch = (moves?.stretches[month] ?? 0) * larger;
      AT.copy(part.home).addScaledVector(part.out, apart).addScaledVector(part.across, -part.fixed * part.stretch);
      part.matrix.compose(AT, part.turn, SHIFT.set(1, 1 + part.stretch, 1));
      part.form.place(part.index, part.matrix);
      this.box.union(BOX.copy(part.box).translate(SHIFT.copy(part.out).multiplyScalar(apart)));
    }
    for (const each of this.#loose) {
      AT.copy(each.home).addScaledVector(each.out, apart);
      if (each.goesWith) AT.add(drift(each.goesWith, each.home));
      each.form.place(each.index, each.matrix.compose(AT, each.turn, WHOLE));
    }
    this.#markTight(year?.months[month], apart);
    const drop = this.box.isEmpty() ? 0 : -this.box.min.y;
    this.root.position.y = drop;
    this.box.translate(SHIFT.set(0, drop, 0));
  }

  /** @param {import("../../types.js").MonthView | undefined} month @param {number} apart */
  #markTight(month, apart) {
    const part = this.parts.get(month?.tightPart ?? "");
    this.#mark.visible = Boolean(part && month?.tightAtM);
    if (!part || !month?.tightAtM) return;
    this.#mark.position.set(...month.tightAtM);
    this.#mark.position.add(drift(part, this.#mark.position)).addScaledVector(part.out, apart);
  }

  /** Where the tightest place of the month is drawn; null if none is. */
  tightAt() {
    return this.#mark.visible ? this.#mark.position.clone().add(this.root.position) : null;
  }

  /**
   * The part that is one of the bodies drawn together; empty for none.
   *
   * @param {import("three").Object3D | undefined} object
   * @param {number | undefined} index
   */
  nameOf(object, index) {
    const form = this.forms.find((each) => each.faces === object);
    return form?.names[index ?? -1] ?? "";
  }

  /** Where a part's middle is drawn. @param {string} name */
  middleOf(name) {
    const part = this.parts.get(name);
    if (!part) return null;
    const moved = new Vector3().setFromMatrixPosition(part.matrix).sub(part.home);
    return part.box.getCenter(new Vector3()).add(moved).add(this.root.position);
  }

  /**
   * @param {{chosen: string, pointed: readonly string[], marked: readonly string[], seeThrough: boolean, apart: number}} shown
   * @param {{mark: string, arris: string, thin: string, tight: string}} ink; `thin` for arrises of what is seen through
   */
  dress({ chosen, pointed, marked, seeThrough, apart }, ink) {
    const { whole, through } = this.#woods;
    for (const wood of [whole, through]) wood.userData.uMark.value.set(ink.mark);
    for (const form of this.forms) form.faces.material = seeThrough ? through : whole;
    for (const part of this.parts.values()) {
      const [isChosen, isPointed] = [part.name === chosen, pointed.includes(part.name) || marked.includes(part.name)];
      const line = isChosen || isPointed ? ink.mark : seeThrough ? ink.thin : ink.arris;
      part.form.mark(part.index, isChosen ? 0.72 : isPointed ? 0.45 : 0, INK.set(line));
    }
    this.#lift(seeThrough ? this.parts.get(chosen) : undefined, ink.mark);
    for (const form of this.#looseForms) form.show(seeThrough || apart > 0);
    this.#mark.material.color.set(ink.tight);
  }

  /** Show one part whole while its like are seen through. @param {Placed | undefined} part @param {string} ink */
  #lift(part, ink) {
    for (const form of this.#lifted.values()) form.show(false);
    if (!part) return;
    const form = this.#lifted.get(part.form) ?? new Form(part.form.shared, this.#woods.whole, this.#ink, [], 1);
    if (!this.#lifted.has(part.form)) this.root.add(...form.objects);
    this.#lifted.set(part.form, form);
    form.dye(0, part.seed, INK.set(part.tone));
    /** @type {import("three").InstancedBufferAttribute} */ (form.faces.instanceColor).needsUpdate = true;
    form.mark(0, 0.72, INK.set(ink));
    form.place(0, part.matrix);
    form.show(true);
  }

  /** Give back what the graphics card holds of it. */
  dispose() {
    for (const form of [...this.forms, ...this.#looseForms, ...this.#lifted.values()]) form.dispose();
    for (const material of this.materials) material.dispose();
    this.#mark.geometry.dispose();
    this.#mark.material.dispose();
  }
}

/**
 * Bodies by what they have in common, each group with its solid; those with no key are left out.
 *
 * @param {Body[]} bodies
 * @param {(body: Body) => string} key
 * @returns {Array<[Body[], number]>}
 */
function alike(bodies, key) {
  /** @type {Map<string, Body[]>} */
  const groups = new Map();
  for (const body of bodies) {
    const own = key(body);
    const group = groups.get(own) ?? [];
    group.push(body);
    if (own) groups.set(own, group);
  }
  return [...groups.values()].map((group) => [group, group[0]?.solid ?? 0]);
}

/** @param {Form} form @param {number} index @param {Body} body @returns {Standing} */
function stood(form, index, body) {
  const matrix = new Matrix4().fromArray(body.matrix);
  const [home, turn] = [new Vector3(), new Quaternion()];
  matrix.decompose(home, turn, AT);
  return { form, index, home, turn, out: new Vector3(), matrix };
}

const DRIFT = new Vector3();

/** How far a place goes with a part that is stretched. @param {Placed} part @param {Vector3} at */
function drift(part, at) {
  const away = DRIFT.copy(at).sub(part.home).dot(part.across) - part.fixed;
  return DRIFT.copy(part.across).multiplyScalar(away * part.stretch);
}
