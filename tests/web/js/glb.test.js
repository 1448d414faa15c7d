import assert from "node:assert/strict";
import { test } from "node:test";

import { flatFaces, readGlb } from "../../../src/scantling/web/static/js/lib/glb.js";

/** A file of one tetrahedron that stands in two places, one of them with nothing left of it. */
function written() {
  const corners = new Float32Array([0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1]);
  const faces = new Uint16Array([0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3]);
  const lines = new Uint16Array([0, 1, 0, 2]);
  const told = {
    nodes: [
      { name: "leg", matrix: [...Array(16).keys()], extras: { like: "leg" }, mesh: 0 },
      { name: "gone", matrix: [...Array(16).keys()] },
    ],
    meshes: [{ name: "leg", primitives: [{ attributes: { POSITION: 0 }, indices: 1, material: 0 }, { attributes: { POSITION: 0 }, indices: 2 }] }],
    materials: [{ pbrMetallicRoughness: { baseColorFactor: [0.5, 0.25, 0.125, 1] } }],
    accessors: [
      { bufferView: 0, componentType: 5126, count: 4, type: "VEC3" },
      { bufferView: 1, componentType: 5123, count: 12, type: "SCALAR" },
      { bufferView: 2, componentType: 5123, count: 4, type: "SCALAR" },
    ],
    bufferViews: [{ byteOffset: 0 }, { byteOffset: 48 }, { byteOffset: 72 }],
  };
  const text = new TextEncoder().encode(JSON.stringify(told));
  const padded = text.length + ((4 - (text.length % 4)) % 4);
  const file = new ArrayBuffer(12 + 8 + padded + 8 + 80);
  const head = new DataView(file);
  [0x46546c67, 2, file.byteLength, padded, 0x4e4f534a].forEach((value, i) => head.setUint32(i * 4, value, true));
  new Uint8Array(file, 20, padded).fill(32).set(text);
  [80, 0x004e4942].forEach((value, i) => head.setUint32(20 + padded + i * 4, value, true));
  new Float32Array(file, 28 + padded, 12).set(corners);
  new Uint16Array(file, 28 + padded + 48, 12).set(faces);
  new Uint16Array(file, 28 + padded + 72, 4).set(lines);
  return file;
}

test("what stands in the piece is read with its place and its solid", () => {
  const { solids, bodies } = readGlb(written());
  assert.deepEqual(bodies.map(({ name, solid }) => [name, solid]), [["leg", 0], ["gone", -1]]);
  assert.deepEqual(bodies[0].extras, { like: "leg" });
  assert.equal(bodies[0].matrix[5], 5);
  assert.deepEqual([...solids[0].lines], [0, 1, 0, 2]);
  assert.deepEqual(solids[0].color, [0.5, 0.25, 0.125]);
  assert.equal(solids[0].corners.length, 12);
});

test("each face gets corners of its own that look the way it looks", () => {
  const { positions, normals } = flatFaces(readGlb(written()).solids[0]);
  assert.equal(positions.length, 4 * 9);
  assert.deepEqual([...normals.slice(0, 9)], [0, 0, -1, 0, 0, -1, 0, 0, -1]);
  const slanted = [...normals.slice(27, 30)];
  for (const each of slanted) assert.ok(Math.abs(each - 1 / Math.sqrt(3)) < 1e-6);
});

test("another kind of file is refused", () => {
  assert.throws(() => readGlb(new ArrayBuffer(40)), /no glTF/);
});
