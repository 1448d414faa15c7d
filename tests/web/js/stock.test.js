import assert from "node:assert/strict";
import { test } from "node:test";
import { actWords, boardWords, boardsWord, lastAct } from "../../../src/scantling/web/static/js/lib/stock.js";

const board = {
  number: 1, name: "C1", species: "black cherry", nominal: "5/4", size: "2440 × 175 mm", lengthMm: 2440, widthMm: 175, boardFeet: 5.7,
  tallyBoardFeet: 6.25, moisturePct: 8.5, price: 66, grade: "FAS", note: "", cameIn: "bought", since: "2026-03-05T12:00:00Z", party: "The mill",
  cameFrom: null, cameFromName: "", readings: [{ at: "2026-03-06T12:00:00Z", moisturePct: 8.5 }], went: null, goneAt: null, wentTo: "",
};
/** @param {string} kind @param {string} name @param {Partial<import("../../../src/scantling/web/static/js/types.js").EventBody>} [more] */
const event = (kind, name, more = {}) => ({ board: 1, name, kind, figure: null, party: "", piece: null, cameFrom: null, ...more });
/** @param {import("../../../src/scantling/web/static/js/types.js").EventBody[]} events */
const act = (...events) => ({ number: 1, at: "2026-03-05T12:00:00Z", note: "", takesBack: null, counts: true, events });

test("a board tells its moisture with the day, its seller and its grade", () => {
  assert.equal(boardWords(board), "8.5 % on 2026-03-06 · from The mill · since 2026-03-05 · FAS");
});

test("an offcut tells the board it was cut from, once", () => {
  const offcut = { ...board, cameFrom: 7, cameFromName: "C7", note: "from C7", grade: "", readings: [] };
  assert.equal(boardWords(offcut), "8.5 % · from C7 · since 2026-03-05");
});

test("what is not known is left out", () => {
  assert.equal(boardWords({ ...board, moisturePct: null, party: "", grade: "", readings: [] }), "since 2026-03-05");
});

test("an act is one sentence, boards of one fate together", () => {
  const told = act(event("used", "C1", { party: "Stool" }), event("used", "C2", { party: "Stool" }), event("kept", "C1 offcut"));
  assert.equal(actWords(told), "used C1, C2 for Stool; kept C1 offcut");
  assert.equal(actWords(act(event("sold", "C1", { party: "Anna", figure: 40 }))), "sold C1 to Anna at 40");
  assert.equal(actWords(act(event("read", "C1", { figure: 8.1 }))), "read C1 at 8.1 %");
  assert.equal(actWords({ ...act(event("thrown", "C1")), note: "rotten" }), "thrown C1; rotten");
});

test("a long row of boards is cut short", () => {
  const many = act(...["A", "B", "C", "D", "E", "F"].map((name) => event("bought", name, { party: "The mill" })));
  assert.equal(actWords(many), "bought A, B, C and 3 more from The mill");
});

test("the last act that counts is the one taken back", () => {
  const first = act(event("bought", "C1"));
  const gone = { ...act(event("used", "C1")), number: 2, counts: false };
  const back = { ...act(), number: 3, takesBack: 2, counts: false };
  assert.equal(lastAct([back, gone, first]), first);
  assert.equal(actWords(back), "took back no. 2");
  assert.equal(lastAct([]), undefined);
});

test("one board is one board", () => {
  assert.equal(boardsWord(1), "1 board");
  assert.equal(boardsWord(4), "4 boards");
});
