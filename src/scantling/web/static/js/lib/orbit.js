/** Where the eye is and where it goes: angles and distances, no drawing. Y is up, the front looks toward +Z. */

/** @typedef {import("../types.js").Pose} Pose */

/** Named places to stand. @type {Readonly<Record<string, Pose>>} */
export const STANDS = Object.freeze({
  corner: { aroundDeg: 32, aboveDeg: 22, near: 1 },
  front: { aroundDeg: 0, aboveDeg: 0, near: 1 },
  side: { aroundDeg: 90, aboveDeg: 0, near: 1 },
  above: { aroundDeg: 0, aboveDeg: 89, near: 1 },
});

const [NEAREST, FARTHEST] = [0.12, 2.5];

/**
 * @param {Pose} pose
 * @param {number} aroundDeg
 * @param {number} aboveDeg
 * @returns {Pose}
 */
export function turned(pose, aroundDeg, aboveDeg) {
  const around = (((pose.aroundDeg + aroundDeg) % 360) + 360) % 360;
  return { ...pose, aroundDeg: around, aboveDeg: clamp(pose.aboveDeg + aboveDeg, -89, 89) };
}

/**
 * @param {Pose} pose
 * @param {number} factor below 1 comes nearer
 * @returns {Pose}
 */
export function zoomed(pose, factor) {
  return { ...pose, near: clamp(pose.near * factor, NEAREST, FARTHEST) };
}

/**
 * Unit vector from the middle of the piece to the eye.
 *
 * @param {Pose} pose
 * @returns {[number, number, number]}
 */
export function toward(pose) {
  const around = (pose.aroundDeg * Math.PI) / 180;
  const above = (pose.aboveDeg * Math.PI) / 180;
  return [Math.sin(around) * Math.cos(above), Math.sin(above), Math.cos(around) * Math.cos(above)];
}

/**
 * Distance from which a box is seen whole: the least at which each of its corners is inside the picture.
 *
 * @param {[number, number, number]} half half the box's extent along x, y, z
 * @param {Pose} pose
 * @param {number} fovDeg upright field of view
 * @param {number} aspect width over height
 * @returns {number}
 */
export function fittingDistance(half, pose, fovDeg, aspect) {
  const eye = toward(pose);
  const right = unit([eye[2], 0, -eye[0]]);
  const up = cross(eye, right);
  const tall = Math.tan((fovDeg * Math.PI) / 360);
  let distance = 0;
  for (const x of [-1, 1]) {
    for (const y of [-1, 1]) {
      for (const z of [-1, 1]) {
        /** @type {[number, number, number]} */
        const corner = [x * half[0], y * half[1], z * half[2]];
        const across = Math.abs(dot(corner, right)) / (tall * aspect);
        const along = Math.abs(dot(corner, up)) / tall;
        distance = Math.max(distance, dot(corner, eye) + Math.max(across, along));
      }
    }
  }
  return distance;
}

/** @typedef {[number, number, number]} Vector */

/** @param {Vector} a @param {Vector} b */
function dot(a, b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** @param {Vector} a @param {Vector} b @returns {Vector} */
function cross(a, b) {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/** @param {Vector} a @returns {Vector} */
function unit(a) {
  const length = Math.hypot(...a);
  return [a[0] / length, a[1] / length, a[2] / length];
}

/** @param {number} value @param {number} least @param {number} most */
function clamp(value, least, most) {
  return Math.min(most, Math.max(least, value));
}
