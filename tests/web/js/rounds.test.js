import assert from "node:assert/strict";
import { test } from "node:test";

import { flatFaces } from "../../../src/scantling/web/static/js/lib/glb.js";
import { roundEdges } from "../../../src/scantling/web/static/js/lib/rounds.js";

/** A peg of so many sides: its two ends have arrises round them, its side has none. */
function peg(/** @type {number} */ many) {
  const corners = [];
  for (const z of [0, 1]) for (let i = 0; i < many; i += 1) corners.push(Math.cos((i * 2 * Math.PI) / many), Math.sin((i * 2 * Math.PI) / many), z);
  const [faces, lines] = [/** @type {number[]} */ ([]), /** @type {number[]} */ ([])];
  for (let i = 0; i < many; i += 1) {
    const next = (i + 1) % many;
    faces.push(i, next, many + next, i, many + next, many + i);
    lines.push(i, next, many + i, many + next);
    if (i > 1) faces.push(0, i, i - 1, many, many + i - 1, many + i);
  }
  return { corners: Float32Array.from(corners), faces: Uint16Array.from(faces), lines: Uint16Array.from(lines) };
}

test("along a round side there is an edge at each facet, and none within a flat or where an arris is", () => {
  const solid = peg(24);
  const { ends, sides } = roundEdges(solid, flatFaces(solid).normals);
  assert.equal(ends.length, 24 * 2);
  for (let i = 0; i < ends.length; i += 2) assert.equal(Math.abs(ends[i] - ends[i + 1]), 24); // from one end to the other
  assert.equal(sides.length, 24 * 6);
});

test("seen from one side, two edges of a peg lie where it turns away", () => {
  const solid = peg(24);
  const { ends, sides } = roundEdges(solid, flatFaces(solid).normals);
  const eye = [0.3, 1, 0];
  const faces = (/** @type {number} */ from) => sides[from] * eye[0] + sides[from + 1] * eye[1] > 0;
  const turning = [...Array(ends.length / 2).keys()].filter((edge) => faces(edge * 6) !== faces(edge * 6 + 3));
  assert.equal(turning.length, 2);
});

test("facets that look the same way are one flat", () => {
  const solid = peg(1000);
  assert.equal(roundEdges(solid, flatFaces(solid).normals).ends.length, 0);
});
