import assert from "node:assert/strict";
import { test } from "node:test";
import { newMark } from "../../../src/scantling/web/static/js/lib/marking.js";

test("each mark has 32 digits and is another", () => {
  const marks = Array.from({ length: 200 }, newMark);
  for (const mark of marks) assert.match(mark, /^[0-9a-f]{32}$/);
  assert.equal(new Set(marks).size, 200);
});
