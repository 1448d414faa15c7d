import assert from "node:assert/strict";
import { test } from "node:test";
import { STANDS, fittingDistance, toward, turned, zoomed } from "../../../src/scantling/web/static/js/lib/orbit.js";

const near = (/** @type {number} */ a, /** @type {number} */ b) => Math.abs(a - b) < 1e-9;

test("the front is seen from +Z, the right side from +X, the top from above", () => {
  assert.ok(near(toward(STANDS.front)[2], 1));
  assert.ok(near(toward(STANDS.side)[0], 1));
  assert.ok(toward(STANDS.above)[1] > 0.999);
});

test("the eye stays at the same distance however it is turned", () => {
  const pose = turned(turned(STANDS.corner, 1234, 17), -77, -300);
  assert.ok(near(Math.hypot(...toward(pose)), 1));
  assert.ok(pose.aboveDeg >= -89 && pose.aroundDeg >= 0 && pose.aroundDeg < 360);
});

test("a square face just fits the height of the picture at the distance worked out", () => {
  // half the height over the tangent of half the view, and the face stands half a unit before the middle
  const distance = fittingDistance([1, 1, 0.5], STANDS.front, 90, 1);
  assert.ok(near(distance, 1.5));
  assert.ok(near(fittingDistance([1, 1, 0.5], STANDS.front, 90, 0.5), 2.5));
});

test("coming nearer has an end", () => {
  let pose = STANDS.corner;
  for (let i = 0; i < 100; i += 1) pose = zoomed(pose, 0.8);
  assert.equal(pose.near, 0.12);
});
