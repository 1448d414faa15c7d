/** Edges of the parts in the picture: the one nearest to a finger, and marks on those picked. */

import { BufferGeometry, LineBasicMaterial, LineSegments, Matrix4, Vector3 } from "three";

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

/** How near a mouse must come, and how near a finger, in pixels of the page. */
const [NEAR_PX, FINGER_PX] = [16, 26];
/** What lies behind a face by more than this is hidden by it, in meters. */
const BEHIND_M = 0.004;

/** Used within one call each. */
const [FROM, TO, SEEN_FROM, SEEN_TO] = [new Vector3(), new Vector3(), new Vector3(), new Vector3()];

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
  const within = matchMedia("(pointer: coarse)").matches ? FINGER_PX : NEAR_PX;
  const near = [...model.parts.values()].flatMap((part) => edgesNear(part, model.root.position, camera, at, within));
  if (!near.length) return null;
  const first = depth(new Vector3((at.x / at.width) * 2 - 1, 1 - (at.y / at.height) * 2, 0)) + BEHIND_M;
  const seen = near.filter(({ away }) => away <= first).sort((a, b) => a.px - b.px)[0];
  return seen ? picked(seen.part, seen.index, model.root.position) : null;
}

/**
 * Edges of a part near a place of the picture, with how near and how far from the eye.
 *
 * @param {Placed} part
 * @param {Vector3} drop where the piece is set down
 * @param {PerspectiveCamera} camera
 * @param {{x: number, y: number, width: number, height: number}} at
 * @param {number} within pixels of the page
 */
function edgesNear(part, drop, camera, at, within) {
  const { lines, corners } = part.form.shared;
  const found = [];
  for (let index = 0; lines && index + 1 < lines.count; index += 2) {
    FROM.fromBufferAttribute(corners, lines.getX(index)).applyMatrix4(part.matrix).add(drop);
    TO.fromBufferAttribute(corners, lines.getX(index + 1)).applyMatrix4(part.matrix).add(drop);
    const { px, share } = nearness(camera, at);
    if (px <= within) found.push({ part, index, px, away: FROM.lerp(TO, share).distanceTo(camera.position) });
  }
  return found;
}

/**
 * How near the edge from FROM to TO comes to a place of the picture, and where along it.
 *
 * @param {PerspectiveCamera} camera
 * @param {{x: number, y: number, width: number, height: number}} at
 */
function nearness(camera, at) {
  SEEN_FROM.copy(FROM).project(camera);
  SEEN_TO.copy(TO).project(camera);
  const [ax, ay] = [((SEEN_FROM.x + 1) / 2) * at.width, ((1 - SEEN_FROM.y) / 2) * at.height];
  const [bx, by] = [((SEEN_TO.x + 1) / 2) * at.width, ((1 - SEEN_TO.y) / 2) * at.height];
  const [dx, dy] = [bx - ax, by - ay];
  const long = dx * dx + dy * dy;
  const share = long ? Math.min(Math.max(((at.x - ax) * dx + (at.y - ay) * dy) / long, 0), 1) : 0;
  return { px: Math.hypot(ax + share * dx - at.x, ay + share * dy - at.y), share };
}

/**
 * An edge as it is drawn, and as the piece stands whole, unstretched.
 *
 * @param {Placed} part
 * @param {number} index of its first end
 * @param {Vector3} drop
 * @returns {PickedEdge}
 */
function picked(part, index, drop) {
  const { lines, corners } = part.form.shared;
  const own = [index, index + 1].map((each) => new Vector3().fromBufferAttribute(corners, lines?.getX(each) ?? 0));
  const home = new Matrix4().compose(part.home, part.turn, new Vector3(1, 1, 1));
  const ends = own.map((each) => each.clone().applyMatrix4(home).toArray());
  const drawn = own.map((each) => each.applyMatrix4(part.matrix).add(drop));
  return {
    part: part.name,
    ends: /** @type {[Triple, Triple]} */ (/** @type {unknown} */ (ends)),
    drawn: /** @type {[Vector3, Vector3]} */ (drawn),
  };
}

/** The edges picked, and the measure between them, drawn over everything. */
export class MeasureMarks {
  lines = new LineSegments(new BufferGeometry(), new LineBasicMaterial({ depthTest: false, transparent: true }));

  constructor() {
    this.lines.renderOrder = 1000;
    this.lines.frustumCulled = false;
    this.lines.raycast = () => {};
  }

  /** @param {ReadonlyArray<readonly [Vector3, Vector3]>} segments @param {string} color */
  show(segments, color) {
    this.lines.geometry.dispose();
    this.lines.geometry = new BufferGeometry().setFromPoints(segments.flat());
    this.lines.material.color.set(color);
    this.lines.visible = segments.length > 0;
  }
}
