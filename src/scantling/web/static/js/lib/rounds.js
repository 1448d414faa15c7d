/** Edges between faces that are round together, which bear no arris: they are drawn where the round turns away from the eye. */

/** Faces that look the same way, but for less than half a degree, are one. */
const SAME = Math.cos((0.5 * Math.PI) / 180);

/**
 * @param {Pick<import("./glb.js").Solid, "faces" | "lines">} solid
 * @param {Float32Array} normals of its faces, three corners each
 * @returns {{ends: Uint32Array, sides: Float32Array}} two corners an edge; for each edge the ways its two faces look
 */
export function roundEdges({ faces, lines }, normals) {
  const arrises = new Set();
  for (let i = 0; i < lines.length; i += 2) arrises.add(keyOf(at(lines, i), at(lines, i + 1)));
  /** @type {Map<number, number>} the face an edge was met at first, by the corners of the edge */
  const met = new Map();
  const [ends, sides] = [/** @type {number[]} */ ([]), /** @type {number[]} */ ([])];
  for (let i = 0; i < faces.length; i += 1) {
    const from = at(faces, i);
    const to = at(faces, i - (i % 3) + ((i + 1) % 3));
    const key = keyOf(from, to);
    const [one, other] = [met.get(key), Math.floor(i / 3) * 9];
    if (one === undefined) {
      met.set(key, other);
      continue;
    }
    const [a, b] = [normals.subarray(one, one + 3), normals.subarray(other, other + 3)];
    if (arrises.has(key) || alike(a, b)) continue;
    ends.push(from, to);
    sides.push(...a, ...b);
  }
  return { ends: Uint32Array.from(ends), sides: Float32Array.from(sides) };
}

/** @param {ArrayLike<number>} numbers @param {number} index */
function at(numbers, index) {
  return /** @type {number} */ (numbers[index]);
}

/** One number for two corners, whichever comes first: far more corners than a piece has stay apart. @param {number} one @param {number} other */
function keyOf(one, other) {
  return Math.min(one, other) * 2 ** 26 + Math.max(one, other);
}

/** Whether two faces are one; a sliver that looks nowhere is part of what lies beside it. @param {Float32Array} a @param {Float32Array} b */
function alike(a, b) {
  const [size, other] = [Math.hypot(...a), Math.hypot(...b)];
  return !size || !other || at(a, 0) * at(b, 0) + at(a, 1) * at(b, 1) + at(a, 2) * at(b, 2) > SAME;
}
