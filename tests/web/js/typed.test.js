import assert from "node:assert/strict";
import { test } from "node:test";
import { outsideLists, withoutEntry } from "../../../src/scantling/web/static/js/lib/typed.js";

/** @param {Array<string | number>} path @param {string} text */
const typed = (path, text) => ({ path, text });
const all = {
  "clamps[1].count": typed(["clamps", 0, "count"], "3"),
  "clamps[2].count": typed(["clamps", 1, "count"], "5"),
  "clamps[3].reach": typed(["clamps", 2, "reach"], "6 ft"),
  "glues.PVA.price": typed(["glues", "PVA", "price"], "9"),
  "rates.margin": typed(["rates", "margin"], "10 %"),
};

test("what is typed of the entries behind one taken out follows them", () => {
  const kept = withoutEntry(all, ["clamps", 0]);
  assert.deepEqual(kept["clamps[1].count"], typed(["clamps", 0, "count"], "5"));
  assert.deepEqual(kept["clamps[2].reach"], typed(["clamps", 1, "reach"], "6 ft"));
  assert.deepEqual(Object.keys(kept).sort(), ["clamps[1].count", "clamps[2].reach", "glues.PVA.price", "rates.margin"]);
});

test("what is typed of the entries before it stays where it is", () => {
  const kept = withoutEntry(all, ["clamps", 2]);
  assert.deepEqual(Object.keys(kept).sort(), ["clamps[1].count", "clamps[2].count", "glues.PVA.price", "rates.margin"]);
  assert.deepEqual(kept["clamps[2].count"], all["clamps[2].count"]);
});

test("of an entry with a name only its own goes", () => {
  const { "glues.PVA.price": gone, ...others } = all;
  assert.deepEqual(withoutEntry(all, ["glues", "PVA"]), others);
});

test("for another version only what stands in no list is still meant", () => {
  assert.deepEqual(Object.keys(outsideLists(all)), ["glues.PVA.price", "rates.margin"]);
});
