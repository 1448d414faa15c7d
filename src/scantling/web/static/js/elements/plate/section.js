/**
 * The piece cut open by a plane: what is on the near side goes, and every part shows its own cut face.
 *
 * A cut face is drawn where the count of back faces over front faces of its part is not nothing; one part after
 * the other, so that parts that touch keep their own faces.
 */

import {
  BackSide,
  Color,
  DecrementWrapStencilOp,
  DoubleSide,
  FrontSide,
  IncrementWrapStencilOp,
  LineSegments,
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
  #caps = new Map();
  #geometry = new PlaneGeometry(1, 1);

  /** @param {Model} model */
  constructor(model) {
    this.model = model;
    let order = 1;
    for (const part of model.parts.values()) {
      const solids = /** @type {Mesh[]} */ ([]);
      part.node.traverse((each) => {
        if (each instanceof Mesh) solids.push(each);
      });
      for (const solid of solids) {
        solid.add(this.#counting(solid, BackSide, IncrementWrapStencilOp, order));
        solid.add(this.#counting(solid, FrontSide, DecrementWrapStencilOp, order));
      }
      const cap = new Mesh(this.#geometry, faceOf(part.wood.color));
      cap.renderOrder = order + 0.5;
      cap.raycast = () => {};
      cap.onAfterRender = (renderer) => renderer.clearStencil();
      model.root.add(cap);
      this.#caps.set(part.name, cap);
      order += 1;
    }
    this.off();
  }

  /** @param {Mesh} solid @param {Side} side @param {StencilOp} op @param {number} order */
  #counting(solid, side, op, order) {
    const material = new MeshBasicMaterial({
      side,
      colorWrite: false,
      depthWrite: false,
      depthTest: false,
      clippingPlanes: [this.plane],
      stencilWrite: true,
      stencilFail: op,
      stencilZFail: op,
      stencilZPass: op,
    });
    const counting = new Mesh(solid.geometry, material);
    counting.renderOrder = order;
    counting.raycast = () => {};
    counting.userData["counting"] = true;
    return counting;
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
    for (const cap of this.#caps.values()) {
      cap.position.copy(place);
      cap.scale.setScalar(reach);
      cap.lookAt(place.clone().add(root.position).sub(normal));
      cap.visible = true;
    }
    this.#clip([this.plane]);
  }

  /** The piece whole again. */
  off() {
    for (const cap of this.#caps.values()) cap.visible = false;
    this.#clip(null);
  }

  /** @param {Plane[] | null} planes */
  #clip(planes) {
    this.model.root.traverse((each) => {
      if (each.userData["counting"]) each.visible = planes !== null;
      else if ((each instanceof Mesh && each.geometry !== this.#geometry) || each instanceof LineSegments) {
        for (const material of [each.material].flat()) {
          material.clippingPlanes = planes;
          material.clipShadows = true;
        }
      }
    });
  }

  /** Whether a place is cut away. @param {Vector3} at */
  isAway(at) {
    return this.plane.distanceToPoint(at) < -1e-6;
  }

  /** Give back what the graphics card holds of it. */
  dispose() {
    this.#geometry.dispose();
    for (const cap of this.#caps.values()) cap.material.dispose();
  }
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
