/** Bodies of one form, drawn together: their faces in one call, their arrises in another, however many there are. */

import {
  BufferAttribute,
  BufferGeometry,
  Color,
  InstancedBufferAttribute,
  InstancedMesh,
  LineSegments,
} from "three";
import { flatFaces } from "../../lib/glb.js";
import { roundEdges } from "../../lib/rounds.js";
import { arrisGeometry } from "./arris.js";

/** @typedef {import("../../lib/glb.js").Solid} Solid */
/** @typedef {import("three").Material} Material */
/** @typedef {import("three").LineBasicMaterial} LineBasicMaterial */
/** @typedef {import("three").Matrix4} Matrix4 */

/**
 * What bodies of one form share.
 *
 * @typedef {object} Shared
 * @property {BufferAttribute} positions
 * @property {BufferAttribute} normals
 * @property {BufferAttribute} corners
 * @property {BufferAttribute | null} lines
 * @property {import("./arris.js").Rounds} rounds
 */

/** @param {Solid} solid @returns {Shared} */
export function sharedOf(solid) {
  const { positions, normals } = flatFaces(solid);
  return {
    positions: new BufferAttribute(positions, 3),
    normals: new BufferAttribute(normals, 3),
    corners: new BufferAttribute(solid.corners, 3),
    lines: solid.lines.length ? new BufferAttribute(solid.lines, 1) : null,
    rounds: roundEdges(solid, normals),
  };
}

export class Form {
  /** @type {LineSegments | null} */
  lines = null;
  #shade;

  /**
   * @param {Shared} shared
   * @param {Material} material
   * @param {LineBasicMaterial} ink
   * @param {readonly string[]} names of the parts, in their order; empty where nothing can be picked
   * @param {number} [count]
   */
  constructor(shared, material, ink, names, count = names.length) {
    this.shared = shared;
    this.names = names;
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", shared.positions).setAttribute("normal", shared.normals);
    this.#shade = new InstancedBufferAttribute(new Float32Array(count * 2), 2);
    geometry.setAttribute("bodyShade", this.#shade);
    this.faces = new InstancedMesh(geometry, material, count);
    this.faces.instanceColor = new InstancedBufferAttribute(new Float32Array(count * 3).fill(1), 3);
    this.faces.frustumCulled = false; // the eye has the whole piece before it
    if (!names.length) this.faces.raycast = () => {};
    if (shared.lines || shared.rounds.ends.length) this.lines = instancedLines(shared, ink, this.faces);
  }

  get objects() {
    return this.lines ? [this.faces, this.lines] : [this.faces];
  }

  /** @param {number} index @param {Matrix4} matrix where it stands */
  place(index, matrix) {
    this.faces.setMatrixAt(index, matrix);
    this.faces.instanceMatrix.needsUpdate = true;
    this.faces.boundingSphere = null; // found anew when something is picked
  }

  /** @param {number} index @param {number} seed @param {Color} tone */
  dye(index, seed, tone) {
    this.#shade.setX(index, seed);
    this.faces.setColorAt(index, tone);
  }

  /** @param {number} index @param {number} glow 0..1 @param {Color} ink of its arrises */
  mark(index, glow, ink) {
    this.#shade.setY(index, glow);
    this.#shade.needsUpdate = true;
    const colors = /** @type {any} */ (this.lines)?.instanceColor;
    if (!colors) return;
    ink.toArray(colors.array, index * 3);
    colors.needsUpdate = true;
  }

  /** @param {boolean} shown */
  show(shown) {
    for (const object of this.objects) object.visible = shown;
  }

  /** Give back what the graphics card holds of it. */
  dispose() {
    this.faces.geometry.dispose();
    this.faces.dispose();
    this.lines?.geometry.dispose();
  }
}

/**
 * Lines drawn once for each body: the library has this for faces only, and asks no more than these fields of it.
 *
 * @param {Shared} shared
 * @param {LineBasicMaterial} ink
 * @param {InstancedMesh} faces
 */
function instancedLines({ corners, lines: arrises, rounds }, ink, faces) {
  const lines = new LineSegments(arrisGeometry(corners, arrises, rounds), ink);
  Object.assign(lines, {
    isInstancedMesh: true,
    instanceMatrix: faces.instanceMatrix,
    instanceColor: new InstancedBufferAttribute(new Float32Array(faces.count * 3).fill(1), 3),
    morphTexture: null,
    count: faces.count,
    frustumCulled: false,
  });
  lines.raycast = () => {};
  return lines;
}
