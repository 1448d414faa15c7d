import assert from "node:assert/strict";
import { test } from "node:test";
import { placeOf } from "../../../src/scantling/web/static/js/lib/offline.js";

const home = "http://127.0.0.1:8417";
const place = (path, { method = "GET", opened = false, from = home } = {}) => placeOf(method, new URL(path, from), home, opened);

test("the files of the page are kept together, documents and what they are made of as they are opened", () => {
  assert.equal(place("/static/js/main.js"), "shell");
  assert.equal(place("/fonts/Barlow-Regular.ttf"), "shell");
  assert.equal(place("/pieces/3/bench", { opened: true }), "opened");
  assert.equal(place("/pieces/3/api/plan?units=in"), "opened");
  assert.equal(place("/api/scene.glb"), "opened");
  assert.equal(place("/pieces/3/api/packet.pdf?paper=a4"), "opened");
});

test("what is written, asked elsewhere, or kept by the page itself is not", () => {
  assert.equal(place("/static/js/main.js", { method: "POST" }), null);
  assert.equal(place("/static/js/main.js", { from: "http://example.org" }), null);
  assert.equal(place("/api/pieces/3/bench"), null);
  assert.equal(place("/pieces/3/api/work"), null);
  assert.equal(place("/api/stockroom"), null);
  assert.equal(place("/api/pieces/3/versions"), null);
});
