import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { Keeping } from "../../../src/scantling/web/static/js/state/keeping.js";
import { Store, firstState } from "../../../src/scantling/web/static/js/state/store.js";

/** Answers that come when they are let go, oldest first. @type {Array<() => void>} */
let answers = [];
let [version, versions, signal] = [1, 1, true];
/** Whether a step from another version than the last is refused, and from which ones were asked for. @type {{strict: boolean, from: number[]}} */
let steps = { strict: false, from: [] };

beforeEach(() => {
  answers = [];
  steps = { strict: false, from: [] };
  [version, versions, signal] = [1, 1, true];
});

const opened = () => ({ piece: { number: 1, version, versions, undo: version > 1 ? version - 1 : null, redo: null }, content: { piece: "", given: {} } });

globalThis.fetch = /** @type {any} */ (
  (/** @type {string} */ address, /** @type {RequestInit | undefined} */ how) =>
    new Promise((done, failed) => {
      if (!signal) return failed(new TypeError("away"));
      if (address.endsWith("/undo")) {
        const { parent } = JSON.parse(String(how?.body));
        steps.from.push(parent);
        if (steps.strict && parent !== version) {
          const body = { errors: [], theirs: {}, current: version };
          return void answers.push(() => done(Response.json(body, { status: 409 })));
        }
        version -= 1;
      }
      const answer = opened(); // as it is when it is asked for
      answers.push(() => done(Response.json(answer)));
    })
);

const waited = () => new Promise((done) => setImmediate(done));

/** @template Answer @param {Promise<Answer>} asked @returns {Promise<Answer>} */
async function answered(asked) {
  await waited();
  answers.shift()?.();
  return asked;
}

/** The page of a piece, looked at when it was at its first version. */
async function page() {
  const store = new Store(firstState({}));
  const keeping = new Keeping(1, store);
  await answered(keeping.look());
  return { store, keeping };
}

test("what another window made of it meanwhile is gone on from, and said", async () => {
  const { store, keeping } = await page();
  [version, versions] = [3, 3];
  await answered(keeping.lookAgain());
  assert.equal(store.state.kept?.version, 3);
  assert.equal(store.state.kept?.undo, 2);
  assert.match(store.state.kept?.said ?? "", /another window: it is at version 3 of 3/);
  assert.equal(await answered(keeping.step("undo")), true);
  assert.equal(store.state.kept?.version, 2);
});

test("a step that another window was before is not taken until what it made is shown", async () => {
  const { store, keeping } = await page();
  [version, versions] = [3, 3];
  steps.strict = true;
  const stepping = keeping.step("undo");
  await waited();
  answers.shift()?.(); // refused
  assert.equal(await answered(stepping), false);
  assert.equal(store.state.kept?.version, 3);
  assert.match(store.state.kept?.said ?? "", /^Another window saved version 3 meanwhile: it is shown now/);
  assert.equal(await answered(keeping.step("undo")), true);
  assert.deepEqual(steps.from, [1, 3]);
  assert.equal(store.state.kept?.version, 2);
});

test("where nothing was changed elsewhere, what was said stays", async () => {
  const { store, keeping } = await page();
  [version, versions] = [2, 2];
  await answered(keeping.step("undo"));
  const { kept } = store.state;
  await answered(keeping.lookAgain());
  assert.equal(store.state.kept, kept);
});

test("an answer from before a change here does not take it back", async () => {
  const { store, keeping } = await page();
  [version, versions] = [3, 3];
  const looking = keeping.lookAgain();
  const stepping = keeping.step("undo");
  await waited();
  const [old, late] = answers.splice(0);
  late?.();
  assert.equal(await stepping, true);
  old?.();
  await looking;
  assert.equal(store.state.kept?.version, 2);
  assert.match(store.state.kept?.said ?? "", /^Undone/);
});

test("without a signal nothing is said of it", async () => {
  const { store, keeping } = await page();
  const { kept } = store.state;
  signal = false;
  await keeping.lookAgain();
  assert.equal(store.state.kept, kept);
});
