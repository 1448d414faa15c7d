/** Edges of the parts in the picture: the one nearest to a finger, and marks on those picked. */

import { BufferAttribute, BufferGeometry, LineBasicMaterial, LineSegments, Matrix4, Quaternion, Vector3 } from "three";

/** @typedef {import("./model.js").Model} Model */
/** @typedef {import("./model.js").Placed} Placed */
/** @typedef {import("three").PerspectiveCamera} PerspectiveCamera */
/** @typedef {[number, number, number]} Triple */

/**
 * @typedef {object} PickedEdge
 * @property {string} part
 * @property {[Triple, Triple]} ends as the piece stands whole, in meters
 * @property {[Vector3, Vector3]} drawn as it is drawn now
 */

/** How near a finger must come, in pixels of the page. */
const NEAR_PX = 16;
/** What lies behind a face by more than this is hidden by it, in meters. */
const BEHIND_M = 0.004;

/**
 * The edge seen nearest to a place of the page.
 *
 * @param {Model} model
 * @param {PerspectiveCamera} camera
 * @param {{x: number, y: number, width: number, height: number}} at place in the picture, and the picture's size
 * @param {(seen: Vector3) => number} depth of the first face behind a place of the picture, from the eye
 * @returns {PickedEdge | null}
 */
export function edgeAt(model, camera, at, depth) {
  /** @type {{px: number, edge: PickedEdge} | null} */
  let best = null;
  const place = new Vector3((at.x / at.width) * 2 - 1, 1 - (at.y / at.height) * 2, 0);
  for (const part of model.parts.values()) {
    for (const lines of linesOf(part)) {
      const { position } = lines.geometry.attributes;
      if (!(position instanceof BufferAttribute)) continue;
      lines.updateWorldMatrix(true, false);
      for (let index = 0; index + 1 < position.count; index += 2) {
        const own = [index, index + 1].map((each) => new Vector3().fromBufferAttribute(position, each));
        const [from, to] = own.map((each) => each.clone().applyMatrix4(lines.matrixWorld));
        if (!from || !to) continue;
        const near = nearness(from, to, camera, at);
        if (near.px > NEAR_PX || (best && near.px >= best.px)) continue;
        if (near.place.distanceTo(camera.position) > depth(place) + BEHIND_M) continue;
        best = { px: near.px, edge: { part: part.name, ends: atHome(part, lines, own), drawn: [from, to] } };
      }
    }
  }
  return best?.edge ?? null;
}

/** @param {Placed} part @returns {LineSegments[]} */
function linesOf(part) {
  /** @type {LineSegments[]} */
  const found = [];
  part.node.traverse((each) => {
    if (each instanceof LineSegments) found.push(each);
  });
  return found;
}

/**
 * Ends of an edge as the piece stands whole, unstretched.
 *
 * @param {Placed} part
 * @param {LineSegments} lines
 * @param {Vector3[]} own in the axes of the lines
 * @returns {[Triple, Triple]}
 */
function atHome(part, lines, own) {
  part.node.updateWorldMatrix(true, true);
  const inPart = part.node.matrixWorld.clone().invert().multiply(lines.matrixWorld);
  const home = new Matrix4().compose(part.home, part.node.getWorldQuaternion(new Quaternion()), new Vector3(1, 1, 1));
  const ends = own.map((each) => each.clone().applyMatrix4(inPart).applyMatrix4(home).toArray());
  return /** @type {[Triple, Triple]} */ (/** @type {unknown} */ (ends));
}

/**
 * How near an edge comes to a place of the picture, and where.
 *
 * @param {Vector3} from
 * @param {Vector3} to
 * @param {PerspectiveCamera} camera
 * @param {{x: number, y: number, width: number, height: number}} at
 */
function nearness(from, to, camera, at) {
  const [a, b] = [from, to].map((each) => {
    const seen = each.clone().project(camera);
    return { x: ((seen.x + 1) / 2) * at.width, y: ((1 - seen.y) / 2) * at.height };
  });
  if (!a || !b) return { px: Infinity, place: from };
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const long = dx * dx + dy * dy;
  const share = long ? Math.min(Math.max(((at.x - a.x) * dx + (at.y - a.y) * dy) / long, 0), 1) : 0;
  const px = Math.hypot(a.x + share * dx - at.x, a.y + share * dy - at.y);
  return { px, place: from.clone().lerp(to, share) };
}

/** The edges picked, and the measure between them, drawn over everything. */
export class MeasureMarks {
  lines = new LineSegments(new BufferGeometry(), new LineBasicMaterial({ depthTest: false, transparent: true }));

  constructor() {
    this.lines.renderOrder = 1000;
    this.lines.frustumCulled = false;
    this.lines.raycast = () => {};
  }

  /** @param {ReadonlyArray<readonly [Vector3, Vector3]>} segments @param {string} colour */
  show(segments, colour) {
    this.lines.geometry.dispose();
    this.lines.geometry = new BufferGeometry().setFromPoints(segments.flat());
    this.lines.material.color.set(colour);
    this.lines.visible = segments.length > 0;
  }
}
