import assert from "node:assert/strict";
import { test } from "node:test";
import { SeasonYears } from "../../../src/scantling/web/static/js/state/season-years.js";

const REFUSED = { errors: [{ code: "too_long", field: "server", place: "", rule: "It takes too long", remedy: "Ask again.", message: "" }] };

/** Years of which each build that is asked for is answered when it is wanted. */
function years() {
  /** @type {((answer: Response) => void)[]} */
  const answers = [];
  globalThis.fetch = /** @type {any} */ (
    (/** @type {string} */ address) => (address.includes("build") ? new Promise((done) => answers.push(done)) : Promise.resolve(Response.json({ sheets: [], verdict: "Nothing binds" })))
  );
  return { years: new SeasonYears(() => {}), answers };
}

test("a build that is refused is told, in another room too, and the year stays", async () => {
  const { years: each, answers } = years();
  await each.look({}, "");
  const asking = each.lookWhen({});
  answers[0]?.(Response.json(REFUSED, { status: 503 }));
  await asking;
  await each.look({}, "kept 1");
  assert.deepEqual(each.state.unbuilt.map(({ code }) => code), ["too_long"]);
  assert.equal(each.state.build, null);
  assert.equal(each.state.seasons?.verdict, "Nothing binds");
  assert.deepEqual(each.state.faults, []);
});

test("of two builds asked for, the last is shown, whichever comes first", async () => {
  const { years: each, answers } = years();
  const asking = [each.lookWhen({}), each.lookWhen({ units: "in" })];
  answers[1]?.(Response.json({ sheets: ["inches"] }));
  answers[0]?.(Response.json(REFUSED, { status: 503 }));
  await Promise.all(asking);
  assert.deepEqual(each.state.build, { sheets: ["inches"] });
  assert.deepEqual(each.state.unbuilt, []);
});

test("asked for again, what was refused before is told no more", async () => {
  const { years: each, answers } = years();
  const first = each.lookWhen({});
  answers[0]?.(Response.json(REFUSED, { status: 503 }));
  await first;
  const again = each.lookWhen({});
  assert.deepEqual(each.state.unbuilt, []);
  answers[1]?.(Response.json({ sheets: [] }));
  await again;
  assert.deepEqual(each.state.build, { sheets: [] });
});
