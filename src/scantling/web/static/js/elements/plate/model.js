/** The parts of the piece in the scene: where they stand, how far they are pulled apart, how they look. */

import { Box3, Group, LineSegments, Mesh, Vector3 } from "three";
import { GLTFLoader } from "three/addons/loaders/GLTFLoader.js";
import { seedOf, woodMaterial } from "./grain.js";

/** @typedef {import("../../types.js").PartView} PartView */

/**
 * @typedef {object} Placed
 * @property {string} name
 * @property {import("three").Object3D} node
 * @property {Vector3} home
 * @property {Vector3} out where it goes when pulled apart
 * @property {Box3} box at home
 * @property {ReturnType<typeof woodMaterial>} wood
 * @property {import("three").LineBasicMaterial[]} lines
 */

export class Model {
  root = new Group();
  /** @type {Map<string, Placed>} */
  parts = new Map();
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
    model.root.add(scene);
    scene.updateMatrixWorld(true);
    for (const view of views) {
      // the loader leaves out characters of names that its animations cannot hold
      const node = scene.children.find((child) => child.name === view.name || child.userData["name"] === view.name);
      if (node) model.#place(view, node);
    }
    model.pull(0);
    return model;
  }

  /** @param {PartView} view @param {import("three").Object3D} node */
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
      box: new Box3().setFromObject(node),
      wood,
      lines,
    });
  }

  /**
   * Pull the piece apart, and set it down so that the lowest part stands on the floor.
   *
   * @param {number} share 0..1
   */
  pull(share) {
    this.box.makeEmpty();
    const shift = new Vector3();
    for (const part of this.parts.values()) {
      shift.copy(part.out).multiplyScalar(share);
      part.node.position.copy(part.home).add(shift);
      this.box.union(part.box.clone().translate(shift));
    }
    const drop = this.box.isEmpty() ? 0 : -this.box.min.y;
    this.root.position.y = drop;
    this.box.translate(new Vector3(0, drop, 0));
  }

  /**
   * @param {{chosen: string, pointed: readonly string[], seeThrough: boolean}} shown
   * @param {{mark: string, arris: string, thin: string}} ink; `thin` for arrises of what is seen through
   */
  dress({ chosen, pointed, seeThrough }, ink) {
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
  }

  /** Give back what the graphics card holds of it. */
  dispose() {
    for (const part of this.parts.values()) {
      part.wood.dispose();
      for (const line of part.lines) line.dispose();
      part.node.traverse((each) => {
        if (each instanceof Mesh || each instanceof LineSegments) each.geometry.dispose();
      });
    }
  }
}
