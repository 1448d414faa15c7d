import assert from "node:assert/strict";
import { test } from "node:test";
import { stepped, written } from "../../../src/scantling/web/static/js/lib/stepping.js";

const inches = { value: 28.75, step: 1 / 16, least: 20, most: 30 };

test("a step goes to the next mark of the scale", () => {
  assert.equal(stepped(inches, 1), 28.8125);
  assert.equal(stepped({ ...inches, value: 28.76 }, 1), 28.8125);
  assert.equal(stepped(inches, -1), 28.6875);
});

test("a step never leaves the limits", () => {
  assert.equal(stepped({ ...inches, value: 30 }, 1), 30);
  assert.equal(stepped({ ...inches, value: 20 }, -1), 20);
  assert.equal(stepped({ value: 3, step: 1, least: null, most: null }, -4), -1);
});

test("a number is written with its unit and without rounding dust", () => {
  assert.equal(written(0.1 + 0.2, "mm"), "0.3 mm");
  assert.equal(written(7, ""), "7");
  assert.equal(written(-0, "deg"), "0 deg");
});
