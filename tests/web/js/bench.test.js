import assert from "node:assert/strict";
import { test } from "node:test";
import { after, clock, current, heldBy, ready, resting, shownSize, soonestFirst, staying, typedSize } from "../../../src/scantling/web/static/js/lib/bench.js";

/** @param {string} key @param {string[]} needs @param {number} [waitMin] @param {number} [clampedMin] */
const step = (key, needs, waitMin = 0, clampedMin = 0) =>
  /** @type {any} */ ({ key, needs: needs.map((each) => ({ key: each })), waitMin, clampedMin });
const STEPS = [step("mill", []), step("glue", ["mill"], 600, 45), step("legs", ["mill"]), step("flatten", ["glue"])];
const at = (/** @type {number} */ minutes) => new Date(minutes * 60_000).toISOString();

test("a step can be done when all before it are", () => {
  const keys = (/** @type {string[]} */ ...done) => ready(STEPS, new Set(done)).map((each) => each.key);
  assert.deepEqual(keys(), ["mill"]);
  assert.deepEqual(keys("mill"), ["glue", "legs"]);
  assert.deepEqual(keys("mill", "glue", "legs", "flatten"), []);
});

test("while glue dries the next step is one that does not wait for it", () => {
  const done = { mill: at(0), glue: at(10) };
  assert.equal(current(STEPS, done, "", 20 * 60_000)?.key, "legs");
  assert.equal(current(STEPS, { ...done, legs: at(30) }, "", 40 * 60_000)?.key, "flatten");
  assert.equal(current(STEPS, done, "mill", 0)?.key, "mill");
});

test("the step in hand stays when an earlier one is dry, until it is done, has to wait or another is asked for", () => {
  const steps = ["mill", "glue", "flatten", "legs"].map((key) => STEPS.find((each) => each.key === key) ?? assert.fail(key));
  const done = { mill: at(0), glue: at(10) };
  const shown = (/** @type {number} */ minute, /** @type {string} */ inHand, asked = "", more = {}) =>
    staying(steps, { ...done, ...more }, { asked, inHand }, minute * 60_000)?.key;
  assert.equal(shown(20, ""), "legs");
  assert.equal(shown(700, "legs"), "legs");
  assert.equal(shown(700, ""), "flatten");
  assert.equal(shown(700, "legs", "", { legs: at(690) }), "flatten");
  assert.equal(shown(20, "flatten"), "legs");
  assert.equal(shown(700, "legs", "mill"), "mill");
});

test("what is left to dry is told, and how much of it in clamps", () => {
  const [rest] = resting(STEPS, { glue: at(10) }, 40 * 60_000);
  assert.equal(rest?.leftMin, 570);
  assert.equal(rest?.clampedMin, 15);
  assert.deepEqual(resting(STEPS, { glue: at(10) }, 700 * 60_000), []);
});

test("a step whose wood still rests can not be done yet", () => {
  const [mill, glue, legs, flatten] = STEPS;
  const rests = resting(STEPS, { mill: at(0), glue: at(10) }, 40 * 60_000);
  assert.deepEqual(heldBy(/** @type {any} */ (flatten), rests).map(({ step }) => step.key), ["glue"]);
  for (const free of [mill, glue, legs]) assert.deepEqual(heldBy(/** @type {any} */ (free), rests), []);
});

test("clocks are short", () => {
  assert.deepEqual([0, 4.116, 65, 1500, -3].map(clock), ["0:00", "4:06", "1 h 05", "1 d 1 h", "0:00"]);
});

test("a measured size goes as it is typed, a bare number in the unit of its field", () => {
  assert.equal(typedSize(" 47.6 ", "mm"), "47.6 mm");
  assert.equal(typedSize("47,6 mm", "in"), "47,6 mm");
  assert.equal(typedSize("1 7/8", "in"), "1 7/8 in");
  assert.equal(typedSize(".5", "in"), ".5 in");
  assert.equal(typedSize("1½", "in"), "1½ in");
  assert.equal(typedSize('3/4"', "mm"), '3/4"');
  assert.equal(typedSize("2' 4", "mm"), "2' 4");
  for (const none of ["", "wide", "-"]) assert.equal(typedSize(none, "mm"), "");
});

test("a measured size stands in its field as it is written, without the unit the field has anyway", () => {
  assert.equal(shownSize("47.6 mm", "mm"), "47.6");
  assert.equal(shownSize("47.6 mm", "in"), "47.6 mm");
  assert.equal(shownSize("1 7/8 in", "in"), "1 7/8");
  assert.equal(shownSize(undefined, "in"), "");
});

test("what is not sent yet counts on the page at once", () => {
  const event = (/** @type {string} */ kind, /** @type {object} */ more = {}) => ({ kind, subject: "glue", at: at(5), key: "k", ...more });
  const done = after(null, event("step done"));
  assert.deepEqual(done.done, { glue: at(5) });
  assert.deepEqual(after(done, event("step open")).done, {});
  const running = after(null, event("timer started"));
  assert.deepEqual(after(running, event("timer stopped", { at: at(17) })).ranMin, { glue: 12 });
  assert.equal(after(null, event("measured", { written: "1 7/8 in" })).measured["glue"]?.written, "1 7/8 in");
  assert.deepEqual(after(after(null, event("measured", { written: "47.6 mm" })), event("taken back")).measured, {});
  assert.equal(after(null, event("measured", { figure: 47.6, unit: "mm" })).measured["glue"]?.written, "47.6 mm", "kept by an older page");
});

test("of what dries and is clamped, what is over soonest is told first", () => {
  const rests = [
    { step: STEPS[0], leftMin: 9000, clampedMin: 0 },
    { step: STEPS[1], leftMin: 1400, clampedMin: 30 },
    { step: STEPS[1], leftMin: 45, clampedMin: 0 },
  ];
  assert.deepEqual(soonestFirst(rests).map(({ leftMin }) => leftMin), [1400, 45, 9000]);
});
