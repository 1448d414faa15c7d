import assert from "node:assert/strict";
import { test } from "node:test";
import { besides, readGiven, sameGiven, sizesOf, unitsOf, withUnit, withValue, writeGiven } from "../../../src/scantling/web/static/js/lib/given.js";

test("an address gives back the sizes written into it, whatever their signs", () => {
  const given = { length: "28 3/4 in", height: `2' 4-1/2"`, a: "1 + 2 & 3" };
  assert.deepEqual({ ...readGiven(writeGiven(given)) }, given);
});

test("nothing asked for writes an empty address", () => {
  assert.equal(writeGiven({}), "");
});

test("a size written as it is drawn, or left empty, asks for nothing", () => {
  assert.deepEqual({ ...withValue({ length: "9" }, "length", " 1370 mm ", "1370 mm") }, {});
  assert.deepEqual({ ...withValue({ length: "9", width: "8" }, "length", "  ", "1370 mm") }, { width: "8" });
});

test("what was asked for otherwise since sizes were kept stays asked for", () => {
  const kept = { length: "1500 mm", width: "640 mm" };
  assert.deepEqual({ ...besides({ ...kept, units: "in" }, kept) }, { units: "in" });
  assert.deepEqual({ ...besides({ ...kept, width: "650 mm", height: "700 mm" }, kept) }, { width: "650 mm", height: "700 mm" });
});

test("the order in which sizes were changed makes no difference", () => {
  assert.ok(sameGiven({ a: "1", b: "2" }, { b: "2", a: "1" }));
  assert.ok(!sameGiven({ a: "1" }, { a: "2" }));
});

test("a bare number takes the unit of its field, anything else stays as written", () => {
  assert.equal(withUnit("730", "mm"), "730 mm");
  assert.equal(withUnit(" 28 3/4", "in"), "28 3/4 in");
  assert.equal(withUnit("28-3/4", "in"), "28-3/4 in");
  assert.equal(withUnit("28¾", "in"), "28¾ in");
  assert.equal(withUnit("28 1⁄4", "in"), "28 1⁄4 in");
  assert.equal(withUnit("28 - 3/4", "in"), "28 - 3/4");
  assert.equal(withUnit("73 cm", "mm"), "73 cm");
  assert.equal(withUnit("3", ""), "3");
});

test("the unit to show goes along with the sizes and is none of them", () => {
  const given = { length: "51 in", units: "in" };
  assert.deepEqual([sizesOf(given), unitsOf(given)], [{ length: "51 in" }, { units: "in" }]);
});
