/** What one text has otherwise than another: applied it makes the other, and tells only the lines that are otherwise. */

import assert from "node:assert/strict";
import { test } from "node:test";
import { freshLines, hunks, startOf } from "../../../src/scantling/web/static/js/lib/lines.js";

/** @param {string} before @param {import("../../../src/scantling/web/static/js/lib/lines.js").Hunk[]} found */
function applied(before, found) {
  const lines = before.split("\n");
  for (const { at, gone, come } of [...found].reverse()) lines.splice(at, gone, ...come);
  return lines.join("\n");
}

test("applied, what is otherwise makes the other text, whatever both are", () => {
  let seed = 7;
  const below = (/** @type {number} */ most) => (seed = (seed * 16807) % 2147483647) % most;
  const text = () => Array.from({ length: below(9) }, () => "abc"[below(3)]).join("\n");
  for (let i = 0; i < 2000; i += 1) {
    const [one, other] = [text(), text()];
    assert.equal(applied(one, hunks(one, other)), other);
  }
});

test("two changes far apart are two, and nothing between them is marked", () => {
  assert.deepEqual(hunks("a\nb\nc\nd\ne", "a\nB\nc\nd\nE"), [
    { at: 1, gone: 1, come: ["B"] },
    { at: 4, gone: 1, come: ["E"] },
  ]);
  assert.deepEqual(freshLines("a\nb\nc\nd\ne", "a\nx\nb\nc\nd\nE"), [2, 6]);
});

test("where lines only went, the one in their place is told; of no change none", () => {
  assert.deepEqual(freshLines("a\nb\nc", "a\nc"), [2]);
  assert.deepEqual(freshLines("a\nb\nc", "a\nb"), [2]);
  assert.deepEqual(freshLines("a", "a"), []);
});

test("a line begins after the breaks before it", () => {
  assert.equal(startOf("ab\ncd\nef", 1), 0);
  assert.equal(startOf("ab\ncd\nef", 3), 6);
});
