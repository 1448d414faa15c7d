import assert from "node:assert/strict";
import { test } from "node:test";
import { KEYS, followed, inWords, nextName, sized, typed } from "../../../src/scantling/web/static/js/lib/pile.js";

/** @param {string} name */
const board = (name) => ({ name, species: "black cherry", thickness: "5/4", length: "8 ft", width: "7 in", price: "", defects: "" });
const press = (/** @type {string[]} */ ...keys) => keys.reduce(typed, "");
/** As it is shown, with what is never parted marked. @param {ReturnType<typeof board>} typedBoard */
const shown = (typedBoard) => inWords(typedBoard).replaceAll("\u00a0", "~");

test("sizes are typed as they are said", () => {
  assert.equal(press("8", "ft", "6", "1/2", "in"), "8 ft 6 1/2 in");
  assert.equal(press("1", "0", "ft"), "10 ft");
  assert.equal(press("3/4"), "3/4");
  assert.equal(press("2", "4", "4", "0"), "2440");
  assert.equal(press("2", ".", "4", "4", "m"), "2.44 m");
});

test("a second fraction or unit takes the place of the first, and a digit cannot follow a fraction", () => {
  assert.equal(press("7", "1/2", "1/4"), "7 1/4");
  assert.equal(press("7", "in", "ft"), "7 ft");
  assert.equal(press("7", "1/2", "5"), "7 1/2");
});

test("the last thing typed is taken away whole", () => {
  assert.equal(typed("8 ft 6 1/2", "back"), "8 ft 6");
  assert.equal(typed("8 ft", "back"), "8");
  assert.equal(typed("2440", "back"), "244");
  assert.equal(typed("", "back"), "");
  assert.equal(typed("8 ft 6", "clear"), "");
});

test("no key leaves a size that no key can have made", () => {
  for (const rows of [KEYS.in, KEYS.mm]) {
    for (const key of rows.flat()) assert.match(press("7", key, "3", key), /^(\d|\.|\/| |[a-z])*$/);
  }
});

test("a board gets the next free number", () => {
  assert.equal(nextName([]), "1");
  assert.equal(nextName([board("1"), board("3")]), "4");
  assert.equal(nextName([board("2")]), "3");
});

test("the pile follows the advice", () => {
  const pile = [board("1"), board("2")];
  const names = (/** @type {string} */ verdict, /** @type {string[]} */ giveBack) =>
    followed(pile, board("3"), { verdict, giveBack }).map((each) => each.name);
  assert.deepEqual(names("take", []), ["1", "2", "3"]);
  assert.deepEqual(names("swap", ["1"]), ["2", "3"]);
  assert.deepEqual(names("put back", []), ["1", "2"]);
});

test("a bare number keeps the unit it was typed in", () => {
  assert.equal(sized("2440", "mm"), "2440 mm");
  assert.equal(sized("7 1/2", "in"), "7 1/2 in");
  assert.equal(sized("8 ft 6", "in"), "8 ft 6");
});

test("a board is told in one line", () => {
  assert.equal(shown({ ...board("1"), price: "38" }), "5/4 black cherry, 8~ft~×~7~in, 38");
  assert.equal(shown({ ...board("1"), length: "2400 mm", width: "210 mm" }), "5/4 black cherry, 2400~×~210~mm");
  assert.equal(shown({ ...board("1"), length: "8 ft 6 in", width: "7 1/2 in" }), "5/4 black cherry, 8~ft~6~in~×~7~1/2~in");
  assert.equal(shown({ ...board("1"), length: "2.4 m", width: "210 mm" }), "5/4 black cherry, 2.4~m~×~210~mm");
});

test("how a board is sawn is said behind its size, where it was looked at", () => {
  const board = { name: "1", species: "white oak", thickness: "4/4", length: "8 ft", width: "7 1/2 in", price: "38", defects: "" };
  assert.equal(inWords({ ...board, rings: "quarter" }).replaceAll("\u00a0", " "), "4/4 white oak, 8 ft × 7 1/2 in, quarter-sawn, 38");
  assert.equal(inWords(board).replaceAll("\u00a0", " "), "4/4 white oak, 8 ft × 7 1/2 in, 38");
});
