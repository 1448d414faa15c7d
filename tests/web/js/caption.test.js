import assert from "node:assert/strict";
import { test } from "node:test";
import { caption } from "../../../src/scantling/web/static/js/lib/caption.js";

const whole = { apart: 0, seeThrough: false, chosen: "" };

test("the caption says what is done to the piece", () => {
  assert.equal(caption(whole), "As it stands.");
  assert.equal(caption({ ...whole, cut: "lengthwise" }), "As it stands, cut open lengthwise.");
  assert.equal(caption({ ...whole, apart: 0.4, seeThrough: true, chosen: "Top" }), "Pulled apart along its joints, seen through. In blue: Top.");
});
