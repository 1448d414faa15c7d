/** The piece in 3D as the server sends it: binary glTF 2.0, faces and arrises by numbers of corners they share. */

/**
 * @typedef {object} Solid
 * @property {string} name
 * @property {Float32Array} corners x, y, z of each
 * @property {Uint16Array | Uint32Array} faces three corners each
 * @property {Uint16Array | Uint32Array} lines two corners each
 * @property {[number, number, number]} color as light, 0..1
 *
 * @typedef {object} Body something that stands in the piece
 * @property {string} name
 * @property {number[]} matrix its place, column by column
 * @property {Record<string, unknown>} extras
 * @property {number} solid which of the solids it is; -1 for nothing left
 */

const [MAGIC, JSON_CHUNK, HEAD, CHUNK_HEAD] = [0x46546c67, 0x4e4f534a, 12, 8];
const [FLOAT, SHORT] = [5126, 5123];

/**
 * @param {ArrayBuffer} file
 * @returns {{solids: Solid[], bodies: Body[]}}
 * @throws {Error} where it is not such a file
 */
export function readGlb(file) {
  const head = new DataView(file);
  if (head.getUint32(0, true) !== MAGIC || head.getUint32(HEAD + 4, true) !== JSON_CHUNK) throw new Error("no glTF");
  const length = head.getUint32(HEAD, true);
  const told = JSON.parse(new TextDecoder().decode(new Uint8Array(file, HEAD + CHUNK_HEAD, length)));
  const blob = HEAD + CHUNK_HEAD + length + CHUNK_HEAD;
  const read = (/** @type {number} */ number) => accessor(file, blob, told, number);
  return {
    solids: (told.meshes ?? []).map((/** @type {any} */ mesh) => solid(mesh, told, read)),
    bodies: (told.nodes ?? []).map((/** @type {any} */ node) => ({
      name: node.name,
      matrix: node.matrix,
      extras: node.extras ?? {},
      solid: node.mesh ?? -1,
    })),
  };
}

/** @param {any} mesh @param {any} told @param {(number: number) => any} read @returns {Solid} */
function solid({ name, primitives: [faces, lines] }, told, read) {
  return {
    name,
    corners: read(faces.attributes.POSITION),
    faces: read(faces.indices),
    lines: lines ? read(lines.indices) : new Uint16Array(0),
    color: told.materials[faces.material].pbrMetallicRoughness.baseColorFactor.slice(0, 3),
  };
}

/** @param {ArrayBuffer} file @param {number} blob @param {any} told @param {number} number */
function accessor(file, blob, told, number) {
  const { bufferView, componentType, count, type } = told.accessors[number];
  const at = blob + told.bufferViews[bufferView].byteOffset;
  if (componentType === FLOAT) return new Float32Array(file, at, count * (type === "VEC3" ? 3 : 1));
  return componentType === SHORT ? new Uint16Array(file, at, count) : new Uint32Array(file, at, count);
}

/**
 * Faces with corners of their own, each with the direction its face looks: flat, as wood from the plane is.
 *
 * @param {Pick<Solid, "corners" | "faces">} solid
 * @returns {{positions: Float32Array, normals: Float32Array}}
 */
export function flatFaces({ corners, faces }) {
  const positions = new Float32Array(faces.length * 3);
  const normals = new Float32Array(faces.length * 3);
  for (let i = 0; i < faces.length; i += 1) {
    const from = /** @type {number} */ (faces[i]) * 3;
    positions.set(corners.subarray(from, from + 3), i * 3);
  }
  const p = (/** @type {number} */ i) => /** @type {number} */ (positions[i]);
  for (let i = 0; i < positions.length; i += 9) {
    const [ax, ay, az] = [p(i + 3) - p(i), p(i + 4) - p(i + 1), p(i + 5) - p(i + 2)];
    const [bx, by, bz] = [p(i + 6) - p(i), p(i + 7) - p(i + 1), p(i + 8) - p(i + 2)];
    const [x, y, z] = [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx];
    const size = Math.hypot(x, y, z) || 1;
    for (let k = i; k < i + 9; k += 3) {
      normals[k] = x / size;
      normals[k + 1] = y / size;
      normals[k + 2] = z / size;
    }
  }
  return { positions, normals };
}
