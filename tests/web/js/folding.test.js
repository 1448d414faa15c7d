import assert from "node:assert/strict";
import { test } from "node:test";

import { gathered, inside, isFolded, together } from "../../../src/scantling/web/static/js/lib/folding.js";

/** @param {number} rows @param {Record<string, unknown>} [more] @returns {any} */
function table(rows, more = {}) {
  const cells = Array.from({ length: rows }, (_, i) => [`${i + 1}`, "plane"]);
  return { kind: "table", title: "Passes", columns: [{ title: "No." }, { title: "Pass" }], rows: cells, tones: [], groups: [], parts: [], note: "", ...more };
}

/** @param {string} title @param {number} lines @returns {any} */
function words(title, lines) {
  return { kind: "words", title, lines: Array(lines).fill("Set the fence, then saw the end that carries the mark."), numbered: true };
}

test("the first short table of a chapter stands open, what comes after it is folded", () => {
  const blocks = [table(4), table(2)];
  assert.deepEqual([isFolded({ blocks }, 0), isFolded({ blocks }, 1)], [false, true]);
});

test("a long table is folded, unless a row of it is bad", () => {
  assert.equal(isFolded({ blocks: [table(45)] }, 0), true);
  assert.equal(isFolded({ blocks: [table(45, { tones: ["plain", "bad"] })] }, 0), false);
});

test("a caution is never folded", () => {
  assert.equal(isFolded({ blocks: [{ kind: "caution", lines: Array(40).fill("Clamp short ends.") }] }, 0), false);
});

test("the line of a fold says how much is inside, and how much of it to watch", () => {
  assert.equal(inside(table(15)), "15 lines: No., Pass");
  assert.equal(inside(table(2, { tones: ["warn", "plain"] })), "2 lines, 1 to watch: No., Pass");
  assert.equal(inside(words("Set-up 5", 6)), "6 steps");
});

test("folded words one after the other are told in one line", () => {
  const sheet = { blocks: [table(2), words("Set-up 5: miter saw", 5), words("Set-up 6: miter saw", 6), table(3)] };
  assert.deepEqual(together(sheet), [[0], [1, 2], [3]]);
  assert.deepEqual(gathered(["Set-up 5: miter saw", "Set-up 6: miter saw"]), {
    first: "Set-up 5: miter saw",
    others: ["6: miter saw"],
  });
  assert.deepEqual(gathered(["Square set-ups", "Set-up 5"]), { first: "Square set-ups", others: ["Set-up 5"] });
});
