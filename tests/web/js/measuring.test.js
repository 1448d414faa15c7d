import assert from "node:assert/strict";
import { test } from "node:test";
import { Measuring } from "../../../src/scantling/web/static/js/state/measuring.js";

const EDGE = [[0, 0.7, 0.3], [1.3, 0.7, 0.3]];

test("one edge tapped twice is no measure, and the second is still asked for", async () => {
  const store = { state: { picked: [], measured: null }, set: (patch) => Object.assign(store.state, patch) };
  const measuring = new Measuring(store);
  await measuring.pick(EDGE);
  await measuring.pick(EDGE);
  await measuring.pick([...EDGE].reverse());
  assert.deepEqual(store.state, { picked: [EDGE], measured: null });
});
