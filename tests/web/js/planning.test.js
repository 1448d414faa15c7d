import assert from "node:assert/strict";
import { test } from "node:test";
import { Planning } from "../../../src/scantling/web/static/js/state/planning.js";
import { Store, firstState } from "../../../src/scantling/web/static/js/state/store.js";

const FAULT = { field: "length", code: "bad_length", rule: "must be a length", remedy: "Type 1400 mm.", message: "" };

test("why an address cannot be planned stays told while the piece as it is drawn comes", async () => {
  globalThis.fetch = /** @type {any} */ (
    async (/** @type {string} */ address) => {
      if (address.includes("length=")) return Response.json({ errors: [FAULT] }, { status: 422 });
      if (address.includes("shape")) return Response.json({ key: "k", parts: [], parameters: [] });
      return Response.json({ key: "k", whole: !address.includes("figures") });
    }
  );
  const store = new Store(firstState({ length: "7 m" }));
  /** @type {string[][]} */
  const told = [];
  store.listen((state) => {
    if (state.shape) told.push(state.faults.map((each) => each.field));
  });
  await new Planning(store).now();
  assert.equal(store.state.plan?.whole, true);
  assert.ok(told.length >= 3);
  assert.deepEqual(told.filter((fields) => fields.join() !== "length"), []);
});
