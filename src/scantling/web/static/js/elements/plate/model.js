/** The parts of the piece in the scene: where they stand, pulled apart and through the year, and how they look. */

import { Box3, Group, LineSegments, Mesh, MeshBasicMaterial, SphereGeometry, Vector3 } from "three";
import { GLTFLoader } from "three/addons/loaders/GLTFLoader.js";
import { seedOf, woodMaterial } from "./grain.js";

/** @typedef {import("../../types.js").PartView} PartView */
/** @typedef {import("../../types.js").YearView} YearView */
/** @typedef {import("three").Object3D} Object3D */

/**
 * @typedef {object} Placed
 * @property {string} name
 * @property {Object3D} node
 * @property {Vector3} home
 * @property {Vector3} out where it goes when pulled apart
 * @property {Vector3} across direction of its width
 * @property {Box3} box at home
 * @property {ReturnType<typeof woodMaterial>} wood
 * @property {import("three").LineBasicMaterial[]} lines
 * @property {number} fixed the line that stays, along `across` from its middle
 * @property {number} stretch as it is drawn now
 *
 * @typedef {object} Loose a tenon, pin, clip...
 * @property {Object3D} node
 * @property {Vector3} home
 * @property {Vector3} out
 * @property {Placed | undefined} goesWith
 *
 * @typedef {object} Standing
 * @property {number} apart 0..1
 * @property {number} month place in the year, 0 as built
 * @property {number} larger how many times larger movement is drawn
 * @property {YearView | undefined} year
 */

/** Size of the mark at the tightest place, as a share of the piece's diagonal. */
const MARK = 0.011;

export class Model {
  root = new Group();
  /** @type {Map<string, Placed>} */
  parts = new Map();
  /** @type {Loose[]} */
  #loose = [];
  #mark = new Mesh(new SphereGeometry(1, 20, 12), new MeshBasicMaterial({ depthTest: false, transparent: true }));
  /** Of everything, as it is pulled apart now. */
  box = new Box3();

  /**
   * @param {ArrayBuffer} file binary glTF
   * @param {readonly PartView[]} views
   * @returns {Promise<Model>}
   */
  static async read(file, views) {
    const { scene } = await new GLTFLoader().parseAsync(file, "");
    const model = new Model();
    model.root.add(scene, model.#mark);
    model.#mark.visible = false;
    model.#mark.renderOrder = 9;
    scene.updateMatrixWorld(true);
    for (const view of views) {
      // the loader leaves out characters of names that its animations cannot hold
      const node = scene.children.find((child) => child.name === view.name || child.userData["name"] === view.name);
      if (node) model.#place(view, node);
    }
    for (const node of scene.children) if (node.userData["loose"]) model.#placeLoose(node);
    model.stand({ apart: 0, month: 0, larger: 1, year: undefined });
    model.#mark.scale.setScalar(model.box.getSize(new Vector3()).length() * MARK);
    return model;
  }

  /** @param {PartView} view @param {Object3D} node */
  #place(view, node) {
    const wood = woodMaterial(view.tone, seedOf(view.name));
    /** @type {import("three").LineBasicMaterial[]} */
    const lines = [];
    node.traverse((each) => {
      if (each instanceof Mesh) {
        each.material = wood;
        each.castShadow = true;
        each.receiveShadow = true;
        each.userData["part"] = view.name;
      } else if (each instanceof LineSegments) {
        each.material = each.material.clone();
        each.raycast = () => {};
        lines.push(each.material);
      }
    });
    this.parts.set(view.name, {
      name: view.name,
      node,
      home: node.position.clone(),
      out: new Vector3(...view.explodeM),
      across: new Vector3(0, 1, 0).applyQuaternion(node.quaternion),
      box: new Box3().setFromObject(node),
      wood,
      lines,
      fixed: 0,
      stretch: 0,
    });
  }

  /** Pulled apart it stands halfway between the two parts it holds. @param {Object3D} node */
  #placeLoose(node) {
    const between = /** @type {string[]} */ (node.userData["between"]).map((name) => this.parts.get(name)?.out);
    const out = new Vector3();
    for (const each of between) if (each) out.addScaledVector(each, 1 / between.length);
    node.traverse((each) => (each.raycast = () => {}));
    this.#loose.push({ node, home: node.position.clone(), out, goesWith: this.parts.get(node.userData["with"]) });
  }

  /**
   * Pull the piece apart, stretch its parts as the month has them, and set it down on its lowest part.
   *
   * @param {Standing} how
   */
  stand({ apart, month, larger, year }) {
    this.box.makeEmpty();
    const known = new Map(year?.parts.map((each) => [each.name, each]));
    for (const part of this.parts.values()) {
      const moves = known.get(part.name);
      part.fixed = moves?.fixedM ?? 0;
      part.stretch = (moves?.stretches[month] ?? 0) * larger;
      part.node.scale.y = 1 + part.stretch;
      const shift = part.out.clone().multiplyScalar(apart);
      part.node.position.copy(part.home).add(shift).addScaledVector(part.across, -part.fixed * part.stretch);
      this.box.union(part.box.clone().translate(shift));
    }
    for (const each of this.#loose) {
      each.node.position.copy(each.home).addScaledVector(each.out, apart);
      if (each.goesWith) each.node.position.add(drift(each.goesWith, each.home));
    }
    this.#markTight(year?.months[month], apart);
    const drop = this.box.isEmpty() ? 0 : -this.box.min.y;
    this.root.position.y = drop;
    this.box.translate(new Vector3(0, drop, 0));
  }

  /** @param {import("../../types.js").MonthView | undefined} month @param {number} apart */
  #markTight(month, apart) {
    const part = this.parts.get(month?.tightPart ?? "");
    this.#mark.visible = Boolean(part && month?.tightAtM);
    if (!part || !month?.tightAtM) return;
    const at = new Vector3(...month.tightAtM);
    this.#mark.position.copy(at).add(drift(part, at)).addScaledVector(part.out, apart);
  }

  /** Where the tightest place of the month is drawn; null if none is. */
  tightAt() {
    return this.#mark.visible ? this.#mark.position.clone().add(this.root.position) : null;
  }

  /**
   * @param {{chosen: string, pointed: readonly string[], seeThrough: boolean, apart: number}} shown
   * @param {{mark: string, arris: string, thin: string, tight: string}} ink; `thin` for arrises of what is seen through
   */
  dress({ chosen, pointed, seeThrough, apart }, ink) {
    for (const part of this.parts.values()) {
      const isChosen = part.name === chosen;
      const isPointed = pointed.includes(part.name);
      part.wood.userData.uGlow.value = isChosen ? 0.72 : isPointed ? 0.45 : 0;
      part.wood.userData.uMark.value.set(ink.mark);
      const thin = seeThrough && !isChosen;
      if (part.wood.transparent !== thin) part.wood.needsUpdate = true;
      part.wood.transparent = thin;
      part.wood.opacity = thin ? 0.22 : 1;
      part.wood.depthWrite = !thin;
      for (const line of part.lines) line.color.set(isChosen || isPointed ? ink.mark : thin ? ink.thin : ink.arris);
    }
    for (const each of this.#loose) each.node.visible = seeThrough || apart > 0;
    this.#mark.material.color.set(ink.tight);
  }

  /** Give back what the graphics card holds of it. */
  dispose() {
    for (const part of this.parts.values()) {
      part.wood.dispose();
      for (const line of part.lines) line.dispose();
    }
    this.root.traverse((each) => {
      if (each instanceof Mesh || each instanceof LineSegments) each.geometry.dispose();
    });
  }
}

/** How far a place goes with a part that is stretched. @param {Placed} part @param {Vector3} at */
function drift(part, at) {
  const away = at.clone().sub(part.home).dot(part.across) - part.fixed;
  return part.across.clone().multiplyScalar(away * part.stretch);
}
