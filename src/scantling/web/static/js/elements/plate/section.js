/**
 * The piece cut open by a plane: what is on the near side goes, and every part shows its own cut face.
 *
 * A cut face is drawn where the count of back faces over front faces is not nothing: no two parts are in one place,
 * so they can be counted together. One wood after the other, so that each has its own faces.
 */

import {
  BackSide,
  Color,
  DecrementWrapStencilOp,
  DoubleSide,
  FrontSide,
  IncrementWrapStencilOp,
  InstancedMesh,
  Mesh,
  MeshBasicMaterial,
  NotEqualStencilFunc,
  Plane,
  PlaneGeometry,
  ReplaceStencilOp,
  Vector3,
} from "three";

/** @typedef {import("./model.js").Model} Model */
/** @typedef {import("three").Side} Side */
/** @typedef {import("three").StencilOp} StencilOp */

/** Which way the cut looks, in the axes of the picture: what stands before the plane is taken away. */
export const CUTS = Object.freeze({
  across: new Vector3(-1, 0, 0),
  lengthwise: new Vector3(0, 0, -1),
  level: new Vector3(0, -1, 0),
});

export class Section {
  plane = new Plane(new Vector3(0, -1, 0), 0);
  /** @type {Array<Mesh<PlaneGeometry, MeshBasicMaterial>>} */
  #caps = [];
  /** @type {InstancedMesh[]} */
  #counting = [];
  #geometry = new PlaneGeometry(1, 1);
  #counts = [counted(this.plane, BackSide, IncrementWrapStencilOp), counted(this.plane, FrontSide, DecrementWrapStencilOp)];

  /** @param {Model} model */
  constructor(model) {
    this.model = model;
    const tones = new Map([...model.parts.values()].map(({ form, tone }) => [form, tone]));
    [...new Set(tones.values())].forEach((tone, at) => {
      const order = at + 1;
      for (const form of model.forms) if (tones.get(form) === tone) this.#count(form, order);
      const cap = new Mesh(this.#geometry, faceOf(new Color(tone)));
      cap.renderOrder = order + 0.5;
      cap.raycast = () => {};
      cap.onAfterRender = (renderer) => renderer.clearStencil();
      model.root.add(cap);
      this.#caps.push(cap);
    });
    this.off();
  }

  /** @param {import("./form.js").Form} form @param {number} order */
  #count({ faces }, order) {
    for (const material of this.#counts) {
      const counting = new InstancedMesh(faces.geometry, material, 0);
      counting.instanceMatrix = faces.instanceMatrix;
      counting.count = faces.count;
      counting.frustumCulled = false;
      counting.renderOrder = order;
      counting.raycast = () => {};
      this.model.root.add(counting);
      this.#counting.push(counting);
    }
  }

  /**
   * Cut the piece as it stands.
   *
   * @param {keyof typeof CUTS} cut
   * @param {number} share where, from the left, the back or the floor, 0..1
   */
  cut(cut, share) {
    const { box, root } = this.model;
    const size = box.getSize(new Vector3());
    const normal = CUTS[cut];
    const at = box.min.clone().addScaledVector(size, 0.5);
    const way = normal.clone().multiply(size);
    at.addScaledVector(way, 0.5 - share);
    this.plane.setFromNormalAndCoplanarPoint(normal, at);
    const reach = size.length() * 2;
    const place = at.clone().sub(root.position);
    for (const cap of this.#caps) {
      cap.position.copy(place);
      cap.scale.setScalar(reach);
      cap.lookAt(place.clone().add(root.position).sub(normal));
    }
    this.#show(true);
  }

  /** The piece whole again. */
  off() {
    this.#show(false);
  }

  /** @param {boolean} open */
  #show(open) {
    for (const each of [...this.#caps, ...this.#counting]) each.visible = open;
    for (const material of this.model.materials) {
      material.clippingPlanes = open ? [this.plane] : null;
      material.clipShadows = true;
    }
  }

  /** Whether a place is cut away. @param {Vector3} at */
  isAway(at) {
    return this.plane.distanceToPoint(at) < -1e-6;
  }

  /** Give back what the graphics card holds of it. */
  dispose() {
    this.#geometry.dispose();
    for (const material of [...this.#counts, ...this.#caps.map((cap) => cap.material)]) material.dispose();
    this.model.root.remove(...this.#caps, ...this.#counting);
  }
}

/** Counts the faces of one side that lie behind a plane. @param {Plane} plane @param {Side} side @param {StencilOp} op */
function counted(plane, side, op) {
  return new MeshBasicMaterial({
    side,
    colorWrite: false,
    depthWrite: false,
    depthTest: false,
    clippingPlanes: [plane],
    stencilWrite: true,
    stencilFail: op,
    stencilZFail: op,
    stencilZPass: op,
  });
}

/** A cut face: the wood of the part, paler, as fresh from the saw. @param {Color} tone */
function faceOf(tone) {
  return new MeshBasicMaterial({
    color: tone.clone().lerp(new Color(0xffffff), 0.35),
    side: DoubleSide,
    stencilWrite: true,
    stencilRef: 0,
    stencilFunc: NotEqualStencilFunc,
    stencilFail: ReplaceStencilOp,
    stencilZFail: ReplaceStencilOp,
    stencilZPass: ReplaceStencilOp,
  });
}
