import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { BenchWork } from "../../../src/scantling/web/static/js/state/bench-work.js";

const NOTHING = { done: {}, measured: {}, running: {}, ranMin: {}, events: [] };
const FAULT = { code: "not_believable", rule: "must be believed", remedy: "Measure it again.", message: "" };
const done = (/** @type {string} */ subject) => ({ kind: "step done", subject });

/** @type {Map<string, string>} */
let kept = new Map();
/** @type {string[]} what was told to the server */
let told = [];
/** @type {(address: string, body: any) => Promise<[number, unknown]> | [number, unknown]} */
let answer = () => [200, NOTHING];

Object.defineProperty(globalThis, "localStorage", {
  configurable: true,
  value: { getItem: (/** @type {string} */ key) => kept.get(key) ?? null, setItem: (/** @type {string} */ key, /** @type {string} */ value) => kept.set(key, value) },
});
globalThis.fetch = /** @type {any} */ (
  async (/** @type {string} */ address, /** @type {RequestInit} */ how) => {
    const body = typeof how.body === "string" ? JSON.parse(how.body) : null;
    if (body?.kind) told.push(body.subject);
    const [status, said] = await answer(address, body);
    return new Response(JSON.stringify(said), { status });
  }
);

beforeEach(() => {
  kept = new Map();
  told = [];
  answer = () => [200, NOTHING];
});

const work = () => new BenchWork(1, () => {});
const waiting = () => JSON.parse(kept.get("bench 1 waiting") ?? "[]").map((/** @type {any} */ each) => each.subject);

test("a step ticked while the work is planned anew is sent at once", { timeout: 5000 }, async () => {
  const bench = work();
  /** @type {Array<(told: [number, unknown]) => void>} */
  const planned = [];
  /** @type {(value?: unknown) => void} */
  let asked = () => {};
  const isAsked = new Promise((resolve) => (asked = resolve));
  answer = (address) => {
    if (address !== "api/work") return [201, NOTHING];
    asked();
    return new Promise((resolve) => planned.push(resolve));
  };
  const first = bench.tell(done("mill"));
  await isAsked;
  const second = bench.tell(done("glue"));
  await new Promise((resolve) => setTimeout(resolve, 20));
  const sent = [...told];
  for (const plan of planned) plan([200, { steps: [] }]);
  await Promise.all([first, second]);
  assert.deepEqual(sent, ["mill", "glue"]);
  assert.deepEqual(waiting(), []);
});

test("work that cannot be planned takes nothing that waits with it", async () => {
  const bench = work();
  /** @type {Promise<void> | null} */
  let second = null;
  answer = (address, body) => {
    if (address === "api/work") {
      second ??= bench.tell(done("glue"));
      return [422, { errors: [FAULT] }];
    }
    return body.subject === "glue" ? Promise.reject(new TypeError("no network")) : [201, NOTHING];
  };
  await bench.tell(done("mill"));
  await second;
  assert.deepEqual(waiting(), ["glue"]);
  assert.equal(bench.state.unsent, 1);
});

test("what waits outlives an opening and a taking back that are refused", async () => {
  const event = { ...done("glue"), at: "2026-03-05T12:00:00Z", key: "k" };
  kept.set("bench 1 waiting", JSON.stringify([event]));
  const bench = work();
  answer = (_address, body) => (body ? Promise.reject(new TypeError("no network")) : [422, { errors: [FAULT] }]);
  await bench.open();
  await bench.takeBack("top.width");
  assert.deepEqual(waiting(), ["glue"]);
  answer = () => [201, NOTHING];
  await bench.open();
  assert.deepEqual(waiting(), []);
});

test("what the server will not have is left, told, and keeps nothing else back", async () => {
  const bench = work();
  answer = (_address, body) => (body?.subject === "top.width" ? [422, { errors: [FAULT] }] : [201, NOTHING]);
  await Promise.all([bench.tell({ kind: "measured", subject: "top.width", written: "1 mm" }), bench.tell(done("glue"))]);
  assert.deepEqual(told, ["top.width", "glue"]);
  assert.deepEqual(waiting(), []);
  assert.deepEqual(bench.state.faults.map((each) => each.code), ["not_believable"]);
});

test("an answer that nobody of the program gave, or that its records are busy, leaves the event where it waits", async () => {
  const bench = work();
  answer = () => [502, "a gateway's page"];
  await bench.tell(done("mill"));
  assert.deepEqual(waiting(), ["mill"]);
  answer = () => [503, { ok: false, status: 503, errors: [{ ...FAULT, code: "records_busy" }] }];
  await bench.open();
  assert.deepEqual(waiting(), ["mill"]);
});
