import assert from "node:assert/strict";
import { test } from "node:test";
import { allTold, toMend, told } from "../../../src/scantling/web/static/js/lib/faults.js";

const FAULT = {
  code: "wider_than_face",
  field: "joints.apron_to_leg.width",
  place: "Joint apron to leg, width",
  rule: "must lie inside the face it is cut in",
  value: "a mortise 158 mm over the edge of apron_front",
  found: "a mortise 158 mm over the edge of apron front",
  remedy: "Make it smaller.",
  message: "pieces/piece.yaml:160:12: joints.apron_to_leg.width: must lie inside the face it is cut in.",
  file: "pieces/piece.yaml",
  line: 160,
  column: 12,
};

test("a fault is told by the joint and what of it, and no path is in it", () => {
  const words = told(FAULT);
  assert.equal(
    words,
    "Joint apron to leg, width (line 160) must lie inside the face it is cut in, got a mortise 158 mm over the edge of apron front. Make it smaller.",
  );
  assert.ok(!/[/\\]|yaml|joints\./.test(words));
});

test("of a file of another name the name is told, without its folders", () => {
  assert.ok(told({ ...FAULT, file: "C:\\shop\\two.yaml" }).startsWith("Joint apron to leg, width (line 160 of two.yaml) must"));
});

test("one with no place says what it has", () => {
  assert.equal(told({ ...FAULT, place: "", message: "" }), "must lie inside the face it is cut in. Make it smaller.");
});

test("faults that differ in what was got alone are told once, with each of it", () => {
  const back = { ...FAULT, found: "one over the edge of apron back" };
  const [first, ...more] = allTold([FAULT, back, FAULT, { ...FAULT, place: "Joint top to rail, width" }]);
  assert.ok(first?.includes("apron front; one over the edge of apron back. Make it smaller."));
  assert.equal(more.length, 1);
});

test("of a field nobody knows the rule is told alone: what is written to it is not what is wrong", () => {
  const rule = "is not a known field; known here: thickness, width";
  const words = told({ ...FAULT, code: "unknown_field", place: "Joint apron to leg, wdth", line: 0, rule, found: "150 mm", remedy: "Did you mean width?" });
  assert.equal(words, "Joint apron to leg, wdth is not a known field; known here: thickness, width. Did you mean width?");
});

test("one rule broken alike in many places is told once, with how many more there are", () => {
  const alike = [1, 2, 3, 4].map((line) => ({ ...FAULT, place: `Part shelf ${line}, species`, line }));
  const words = allTold([...alike, { ...FAULT, rule: "must be mm or in" }]);
  assert.equal(words.length, 2);
  assert.ok(words[0]?.startsWith("Part shelf 1, species (line 1) and 3 other places must lie inside"));
  assert.equal(allTold(alike.slice(1)).length, 3);
});

test("how many there are to mend is told with the line of the first, and its file where it is another", () => {
  assert.equal(toMend([FAULT], FAULT), "1 to mend in line 160");
  assert.equal(toMend([FAULT, FAULT], { ...FAULT, file: "rack.csv" }), "2 to mend, the first in line 160 of rack.csv");
  assert.equal(toMend([FAULT, FAULT], { ...FAULT, line: 0 }), "2 to mend");
});
