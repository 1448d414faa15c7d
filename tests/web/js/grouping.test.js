/** Fields that belong together stand together, where the first of them stands. */

import assert from "node:assert/strict";
import { test } from "node:test";
import { grouped } from "../../../src/scantling/web/static/js/lib/grouping.js";

test("fields of one group stand together where its first stands", () => {
  const fields = [
    { group: "Size", name: "width" },
    { group: "Place", name: "x" },
    { group: "Size", name: "length" },
  ];
  assert.deepEqual(grouped(fields), [
    ["Size", [fields[0], fields[2]]],
    ["Place", [fields[1]]],
  ]);
  assert.deepEqual(grouped([]), []);
});
