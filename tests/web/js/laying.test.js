import assert from "node:assert/strict";
import { test } from "node:test";
import { layout } from "../../../src/scantling/web/static/js/lib/laying.js";

const columns = (/** @type {string[]} */ ...aligns) => aligns.map((align) => ({ title: "", align }));
const sentence = "Saw the end square first, then set the stop and saw the other one.";

test("sentences go under the row, figures and the first column stay beside each other", () => {
  const table = { columns: columns("left", "right", "left"), rows: [[sentence, "3", sentence], ["a", "4", ""]] };
  assert.deepEqual(layout(table), { beside: [0, 1], under: [2] });
});

test("a table of two columns keeps both", () => {
  assert.deepEqual(layout({ columns: columns("left", "left"), rows: [["a", sentence]] }), { beside: [0, 1], under: [] });
});

test("what a numbered row is about stays beside its number", () => {
  const table = { columns: columns("right", "left", "left"), rows: [["1", sentence, sentence]] };
  assert.deepEqual(layout(table), { beside: [0, 1], under: [2] });
});
