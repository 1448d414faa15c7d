import assert from "node:assert/strict";
import { test } from "node:test";
import { caption, drawnAs, neighbour } from "../../../src/scantling/web/static/js/lib/caption.js";
import { changedCells, sameSheet } from "../../../src/scantling/web/static/js/lib/changing.js";
import { concerning } from "../../../src/scantling/web/static/js/lib/concerning.js";
import { verdict } from "../../../src/scantling/web/static/js/lib/verdict.js";

const table = (/** @type {string[][]} */ rows, title = "Sizes") => ({
  kind: /** @type {const} */ ("table"),
  title,
  columns: [{ title: "Part", align: "left" }, { title: "Length", align: "right" }],
  rows,
  tones: [],
  groups: [],
  parts: [["top"], ["leg_1", "leg_2"]],
  note: "",
});
const sheet = { id: "parts", title: "Parts", lead: "", blocks: [table([["top", "1370"], ["legs", ""]])] };

test("a part is told every row that names it, with empty cells left out", () => {
  const [mention, ...others] = concerning([sheet], "leg_2");
  assert.equal(others.length, 0);
  assert.deepEqual([mention?.sheet, mention?.block, mention?.row], ["parts", 0, 1]);
  assert.deepEqual(mention?.cells, [["Part", "legs"]]);
  assert.deepEqual(concerning([sheet], "leg"), []);
});

test("only cells that differ are marked, and none where the table is another one", () => {
  const before = table([["top", "1370"], ["legs", "700"]]);
  const after = table([["top", "1300"], ["legs", "700"]]);
  assert.deepEqual([...changedCells(after, before)], ["0,1"]);
  assert.equal(changedCells(after, table([["top", "1300"], ["legs", "700"]], "Other")).size, 0);
  assert.equal(changedCells(after, undefined).size, 0);
});

test("a sheet is the same when all it shows is the same", () => {
  assert.ok(sameSheet(sheet, structuredClone(sheet)));
  assert.ok(!sameSheet(sheet, { ...sheet, lead: "new" }));
});

test("the verdict counts what is serious, tells apart what stops the job, and says so when nothing is", () => {
  const found = (/** @type {string} */ severity) => ({ code: "", severity, where: "", message: "", advice: "", source: "", parts: [] });
  assert.deepEqual(verdict([found("stop"), found("high"), found("medium"), found("note")]).map((each) => each.text), [
    "2 serious (1 stops the job)",
    "1 worth a change",
  ]);
  assert.deepEqual(verdict([found("note")]).map((each) => each.text), ["Nothing serious found"]);
});

test("the caption says how the piece is shown", () => {
  assert.equal(caption({ apart: 0, seeThrough: false, chosen: "" }), "As it stands.");
  assert.equal(
    caption({ apart: 0.5, seeThrough: true, chosen: "Top" }),
    "Pulled apart along its joints, seen through. In blue: Top.",
  );
});

test("parts are gone through round and round", () => {
  const names = ["a", "b"];
  assert.deepEqual(["", "a", "b"].map((name) => neighbour(names, name, 1)), ["a", "b", "a"]);
  assert.deepEqual(["", "a"].map((name) => neighbour(names, name, -1)), ["b", "b"]);
  assert.equal(neighbour([], "a", 1), "");
});

test("what is drawn larger than it is says so", () => {
  const shown = { apart: 0, seeThrough: false, chosen: "", month: "February" };
  assert.equal(caption({ ...shown, larger: 10 }), "As it stands, in February, movement drawn 10 times larger.");
  assert.equal(drawnAs(1), "movement drawn true to size");
});
