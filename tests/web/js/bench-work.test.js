import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { Waiting } from "../../../src/scantling/web/static/js/state/bench-waiting.js";
import { BenchWork } from "../../../src/scantling/web/static/js/state/bench-work.js";

const NOTHING = { done: {}, measured: {}, running: {}, ranMin: {}, events: [] };
/** What the server says with each status but those that judge what was sent. */
const NOT_NOW = [401, 404, 421, 429, 500, 503];
const FAULT = { code: "not_believable", rule: "must be believed", remedy: "Measure it again.", message: "" };
const done = (/** @type {string} */ subject) => ({ kind: "step done", subject });

/** @type {Map<string, string>} */
let kept = new Map();
/** @type {string[]} what was told to the server */
let told = [];
/** @type {(address: string, body: any) => Promise<[number, unknown]> | [number, unknown]} */
let answer = () => [200, NOTHING];

let full = false;

Object.defineProperty(globalThis, "localStorage", {
  configurable: true,
  value: {
    get length() {
      return kept.size;
    },
    key: (/** @type {number} */ at) => [...kept.keys()][at] ?? null,
    getItem: (/** @type {string} */ key) => kept.get(key) ?? null,
    removeItem: (/** @type {string} */ key) => kept.delete(key),
    setItem: (/** @type {string} */ key, /** @type {string} */ value) => {
      if (full) throw new Error("QuotaExceededError");
      kept.set(key, value);
    },
  },
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
  full = false;
  told = [];
  answer = () => [200, NOTHING];
});

test("what is ticked with no signal tells the version it was done by, though the work is another when it is sent", async () => {
  kept.set("bench 1 work", JSON.stringify({ steps: [], version: 3 }));
  answer = silent;
  const bench = work();
  await bench.tell(done("saw"));
  /** @type {any[]} */
  const sent = [];
  answer = (address, body) => {
    if (address === "api/work") return [200, { steps: [] }];
    sent.push(body);
    return [201, NOTHING];
  };
  await bench.open();
  assert.deepEqual(sent.filter(Boolean).map((each) => [each.subject, each.version]), [["saw", 3]]);
});

test("what was done by a version that is not there is told, and not sent for ever", async () => {
  kept.set("bench 1 work", JSON.stringify({ steps: [], version: 9 }));
  answer = (address) => (address.endsWith("/bench") ? [404, { status: 404, errors: [{ ...FAULT, code: "unknown_version" }] }] : [200, NOTHING]);
  const bench = work();
  await bench.tell(done("saw"));
  assert.deepEqual(waiting(), []);
  assert.deepEqual(bench.state.refused.map(({ event }) => event.subject), ["saw"]);
});

const work = () => new BenchWork(1, new Waiting(1), () => {});
const waiting = () => new Waiting(1).list.map((each) => each.subject);
const silent = () => Promise.reject(new TypeError("no network"));

test("a step ticked while the work is planned anew is sent at once", { timeout: 5000 }, async () => {
  const bench = work();
  /** @type {Array<(told: [number, unknown]) => void>} */
  const planned = [];
  /** @type {(value?: unknown) => void} */
  let asked = () => {};
  const isAsked = new Promise((resolve) => (asked = resolve));
  /** @type {(value?: unknown) => void} */
  let glued = () => {};
  const isTold = new Promise((resolve) => (glued = resolve));
  answer = (address, body) => {
    if (body?.subject === "glue") glued();
    if (address !== "api/work") return [201, NOTHING];
    asked();
    return new Promise((resolve) => planned.push(resolve));
  };
  const first = bench.tell(done("mill"));
  await isAsked;
  const second = bench.tell(done("glue"));
  await isTold;
  const sent = [...told];
  answer = (address) => (address === "api/work" ? [200, { steps: [] }] : [201, NOTHING]);
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
      return [422, { ok: false, status: 422, errors: [FAULT] }];
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
  answer = (_address, body) => (body ? Promise.reject(new TypeError("no network")) : [422, { ok: false, status: 422, errors: [FAULT] }]);
  await bench.open();
  await bench.takeBack("top.width");
  assert.deepEqual(waiting(), ["glue", "top.width"]);
  answer = () => [201, NOTHING];
  await bench.open();
  assert.deepEqual(waiting(), []);
});

test("what the server will not have is left, told, and keeps nothing else back", async () => {
  const bench = work();
  answer = (_address, body) => (body?.subject === "top.width" ? [422, { ok: false, status: 422, errors: [FAULT] }] : [201, NOTHING]);
  await Promise.all([bench.tell({ kind: "measured", subject: "top.width", written: "1 mm" }), bench.tell(done("glue"))]);
  assert.deepEqual(told, ["top.width", "glue"]);
  assert.deepEqual(waiting(), []);
  assert.deepEqual(bench.state.refused.map((each) => [each.event.subject, each.faults[0]?.code]), [["top.width", "not_believable"]]);
});

test("an answer that nobody of the program gave leaves the event where it waits", async () => {
  const bench = work();
  answer = () => [502, "a gateway's page"];
  await bench.tell(done("mill"));
  assert.deepEqual(waiting(), ["mill"]);
});

for (const status of NOT_NOW) {
  test(`an answer that does not judge what was sent leaves it where it waits: ${status}`, async () => {
    const bench = work();
    answer = () => [status, { ok: false, status, errors: [{ ...FAULT, code: "another" }] }];
    await bench.tell(done("mill"));
    assert.deepEqual(waiting(), ["mill"]);
    assert.deepEqual(bench.state.faults.map((each) => each.code), ["another"]);
    answer = () => [201, NOTHING];
    await bench.send();
    assert.deepEqual(waiting(), []);
    assert.deepEqual(bench.state.faults, []);
  });
}

test("two windows take nothing of each other's that waits", async () => {
  answer = silent;
  const one = work();
  const other = work();
  await one.tell(done("mill"));
  await other.tell(done("glue"));
  assert.deepEqual(waiting(), ["mill", "glue"]);
  assert.equal(other.state.unsent, 2);
  one.heard("bench 1 waiting another");
  assert.deepEqual([one.state.unsent, Object.keys(one.state.bench?.done ?? {})], [2, ["mill", "glue"]]);
  answer = () => [201, NOTHING];
  await one.send();
  assert.deepEqual(told.slice(-2), ["mill", "glue"]);
  assert.deepEqual(waiting(), []);
});

test("what waits is sent in the order it was told, also within one moment", async () => {
  answer = silent;
  const bench = work();
  const subjects = Array.from({ length: 12 }, (_, at) => `step ${at}`);
  await Promise.all(subjects.map((each) => bench.tell(done(each))));
  assert.deepEqual(waiting(), subjects);
});

test("what an older page left waiting is sent too", async () => {
  const event = { ...done("glue"), at: "2026-03-05T12:00:00Z", key: "k" };
  kept.set("bench 1 waiting", JSON.stringify([event, { ...event, subject: "mill", key: "l" }]));
  answer = () => [201, NOTHING];
  await work().open();
  assert.deepEqual(told, ["glue", "mill"]);
  assert.deepEqual(waiting(), []);
});

test("where the browser keeps nothing, what is told waits in the page, and is not said to be kept", async () => {
  full = true;
  answer = silent;
  const bench = work();
  await bench.tell(done("mill"));
  assert.deepEqual([bench.state.unsent, bench.state.held], [1, false]);
  answer = () => [201, NOTHING];
  await bench.send();
  assert.deepEqual(told.slice(-1), ["mill"]);
  assert.deepEqual([bench.state.unsent, bench.state.held], [0, true]);
});

test("what was refused stays told through a reload, until it is seen or told rightly", async () => {
  const wrong = { kind: "measured", subject: "top.width", written: "96 mm" };
  answer = (_address, body) => (body?.written === "96 mm" ? [422, { ok: false, status: 422, errors: [FAULT] }] : [201, NOTHING]);
  await work().tell(wrong);
  const bench = work();
  await bench.open();
  await bench.tell(done("glue"));
  assert.deepEqual(bench.state.refused.map((each) => each.event.written), ["96 mm"]);
  await bench.tell({ ...wrong, written: "657 mm" });
  assert.deepEqual([bench.state.refused, work().state.refused], [[], []]);
  await bench.tell(wrong);
  assert.equal(bench.state.refused.length, 1);
  bench.seen();
  assert.deepEqual([bench.state.refused, work().state.refused], [[], []]);
});

test("a field emptied with no signal is taken back when there is one", async () => {
  answer = () => [201, { ...NOTHING, measured: { "top.width": { written: "657 mm" } } }];
  const bench = work();
  await bench.tell({ kind: "measured", subject: "top.width", written: "657 mm" });
  answer = silent;
  await bench.takeBack("top.width");
  assert.deepEqual([bench.state.bench?.measured, bench.state.unsent], [{}, 1]);
  /** @type {string[]} */
  const back = [];
  answer = (address, body) => {
    if (body) back.push(body.subject);
    return [201, address === "api/work" ? { steps: [] } : NOTHING];
  };
  await bench.send();
  assert.deepEqual(back, ["top.width"]);
  assert.deepEqual(waiting(), []);
  answer = silent;
  await bench.takeBack("top.width");
  answer = (_address, body) => (body ? [409, { ok: false, status: 409, errors: [{ ...FAULT, code: "nothing_to_take_back" }] }] : [200, NOTHING]);
  await bench.send();
  assert.deepEqual(waiting(), [], "another window had taken it back already");
  assert.deepEqual(bench.state.refused, []);
});

test("a taking back is sent with its time and key, and after what was seen by a clock ahead", async () => {
  const ahead = "2999-01-01T00:00:00.000Z";
  answer = () => [200, { ...NOTHING, measured: { "top.width": { written: "657 mm", at: ahead } } }];
  const bench = work();
  await bench.open();
  answer = silent;
  await bench.takeBack("top.width");
  await bench.tell({ kind: "measured", subject: "top.width", written: "658 mm" });
  const [back, anew] = new Waiting(1).list;
  assert.deepEqual([back?.kind, anew?.kind], ["taken back", "measured"]);
  /** @type {any[]} */
  const sent = [];
  answer = (address, body) => {
    if (address.endsWith("take-back")) sent.push(body);
    return [201, address === "api/work" ? { steps: [] } : NOTHING];
  };
  await bench.send();
  assert.deepEqual(sent, [{ subject: "top.width", at: back?.at, key: back?.key }]);
  assert.ok(Date.parse(sent[0].at) > Date.parse(ahead), "what was seen is taken back");
  assert.ok(Date.parse(anew?.at ?? "") > Date.parse(sent[0].at), "what is measured after it stands");
});

test("work that cannot be planned keeps nobody from seeing what is done", async () => {
  const bench = work();
  answer = (address) => (address === "api/work" ? [422, { ok: false, status: 422, errors: [FAULT] }] : [200, { ...NOTHING, done: { mill: "2026-03-05T12:00:00Z" } }]);
  await bench.open();
  assert.deepEqual(Object.keys(bench.state.bench?.done ?? {}), ["mill"]);
  assert.deepEqual(bench.state.faults.map((each) => each.code), ["not_believable"]);
});
