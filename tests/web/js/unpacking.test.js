import assert from "node:assert/strict";
import { test } from "node:test";
import { gzipSync } from "node:zlib";
import { unpacked } from "../../../src/scantling/web/static/js/lib/unpacking.js";

test("what was packed comes out again, byte for byte", async () => {
  const bytes = Uint8Array.from({ length: 70_000 }, (_, place) => (place * 31) % 256);
  const packed = gzipSync(bytes).toString("base64");
  assert.deepEqual(new Uint8Array(await unpacked(packed)), bytes);
});

test("what was not packed is refused, not drawn", async () => {
  await assert.rejects(unpacked("bm90IHBhY2tlZA=="));
});
