import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { forget, keep, keepText, namesFrom, recall, recallText } from "../../../src/scantling/web/static/js/lib/this-browser.js";

/** @type {Map<string, string>} */
let stored = new Map();
/** @type {"on" | "full" | "off"} */
let storage = "on";

Object.defineProperty(globalThis, "localStorage", {
  configurable: true,
  get() {
    if (storage === "off") throw new Error("SecurityError");
    return {
      length: stored.size,
      key: (/** @type {number} */ at) => [...stored.keys()][at] ?? null,
      getItem: (/** @type {string} */ name) => stored.get(name) ?? null,
      removeItem: (/** @type {string} */ name) => stored.delete(name),
      setItem: (/** @type {string} */ name, /** @type {string} */ text) => {
        if (storage === "full") throw new Error("QuotaExceededError");
        stored.set(name, text);
      },
    };
  },
});

beforeEach(() => {
  stored = new Map();
  storage = "on";
});

test("what is kept is recalled by its name until it is forgotten", () => {
  assert.equal(keep("pile", [{ name: "A1" }]), true);
  assert.equal(keepText("units", "in"), true);
  assert.deepEqual(recall("pile"), [{ name: "A1" }]);
  assert.equal(recallText("units"), "in");
  forget("pile");
  assert.equal(recall("pile"), null);
  assert.equal(recallText("pile"), null);
  assert.equal(recallText("units"), "in");
});

test("names are found by how they begin", () => {
  for (const name of ["bench 1 waiting a", "bench 1 waiting b", "bench 11 waiting c", "bench 1 work"]) keep(name, 1);
  assert.deepEqual(namesFrom("bench 1 waiting "), ["bench 1 waiting a", "bench 1 waiting b"]);
  assert.deepEqual(namesFrom("yard"), []);
});

test("what cannot be read is as nothing, and is not thrown away", () => {
  stored.set("pile", "[{");
  assert.equal(recall("pile"), null);
  assert.equal(recallText("pile"), "[{");
});

test("where there is no room it is told, and what was kept before stays", () => {
  keep("pile", ["A1"]);
  storage = "full";
  assert.equal(keep("pile", ["A1", "A2"]), false);
  assert.equal(keepText("units", "in"), false);
  assert.deepEqual(recall("pile"), ["A1"]);
  forget("pile");
  assert.equal(recall("pile"), null);
});

test("where storage is switched off nothing is found, kept or thrown", () => {
  stored.set("pile", "1");
  storage = "off";
  assert.equal(keep("pile", 2), false);
  assert.equal(keepText("pile", "2"), false);
  forget("pile");
  assert.equal(recall("pile"), null);
  assert.equal(recallText("pile"), null);
  assert.deepEqual(namesFrom(""), []);
  storage = "on";
  assert.equal(recall("pile"), 1);
});
