import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { BoardsWork } from "../../../src/scantling/web/static/js/state/boards-work.js";
import { Unwritten } from "../../../src/scantling/web/static/js/state/unwritten.js";

const notes = (/** @type {number} */ parent, text = "") => ({ parent, text, name: "n", undo: false, redo: false, kept: "version", written: true, place: "", said: "", run: 0, held: "" });
const MOVED = { ok: false, status: 409, current: 2, errors: [{ code: "moved_on", rule: "must be the newest", remedy: "Look at it.", message: "" }] };

/** @type {Map<string, string>} */
let stored = new Map();
Object.defineProperty(globalThis, "localStorage", {
  configurable: true,
  value: {
    get length() {
      return stored.size;
    },
    key: (/** @type {number} */ at) => [...stored.keys()][at] ?? null,
    getItem: (/** @type {string} */ key) => stored.get(key) ?? null,
    removeItem: (/** @type {string} */ key) => stored.delete(key),
    setItem: (/** @type {string} */ key, /** @type {string} */ value) => stored.set(key, value),
  },
});
beforeEach(() => {
  stored = new Map();
});

/** A window that has seen step 1 while the server is at step 2. @param {object} [told] of the notes @returns {Promise<{work: BoardsWork, sent: any[]}>} */
async function behind(told = {}) {
  /** @type {any[]} */
  const sent = [];
  let parent = 1;
  globalThis.fetch = /** @type {any} */ (
    async (/** @type {string} */ _address, /** @type {RequestInit} */ how) => {
      const body = typeof how.body === "string" ? JSON.parse(how.body) : null;
      if (!body) return Response.json({ notes: { ...notes(parent, "leave: [L2]\n"), ...told }, boards: [], sheets: [], loose: [] });
      sent.push(body);
      if (body.parent !== 2) return Response.json(MOVED, { status: 409 });
      return Response.json(notes(3));
    }
  );
  const work = new BoardsWork(new Unwritten("here"), /** @type {any} */ ({}), () => {});
  await work.open();
  parent = 2;
  return { work, sent };
}

test("a mark made behind another window is made on what that one left", async () => {
  const { work, sent } = await behind();
  assert.equal(await work.act({ act: "leave", board: "C1" }), true);
  assert.deepEqual(sent.map((each) => each.parent), [1, 2]);
});

test("whole notes never take the place of what another window left: told, and they stay to be taken", async () => {
  stored.set("here cherry 0", "leave: [C1]\n");
  const { work, sent } = await behind({ kept: "file", written: false, run: 1, held: "cherry" });
  await work.leftOver(true);
  assert.deepEqual(sent.map((each) => each.parent), [1]);
  assert.deepEqual(work.state.faults.map((each) => each.code), ["moved_on"]);
  assert.equal(work.state.unwritten, "leave: [C1]\n");
  assert.equal(work.state.view?.notes.parent, 2);
});

const ANEW = { ok: false, status: 409, errors: [{ code: "begun_anew", rule: "must be of this run", remedy: "Look at it.", message: "" }] };

/** A program that holds notes until they are written, and can be stopped and started again. */
function program() {
  const server = { run: 1, steps: [""], file: "", held: "cherry", kept: "file", refuses: false };
  const view = () => ({
    ...notes(server.run + server.steps.length - 1, server.steps.at(-1)),
    kept: server.kept,
    written: server.steps.at(-1) === server.file,
    place: "cherry.bench.yaml",
    run: server.run,
    held: server.held,
  });
  globalThis.fetch = /** @type {any} */ (
    async (/** @type {string} */ address, /** @type {RequestInit} */ how) => {
      const body = typeof how.body === "string" ? JSON.parse(how.body) : null;
      if (!body) return Response.json({ notes: view(), boards: [], sheets: [], loose: [] });
      if (body.parent < server.run || body.parent > view().parent) return Response.json(ANEW, { status: 409 });
      if (address.includes("write")) server.file = server.steps.at(-1) ?? "";
      else server.steps.push(body.act === "text" ? body.text : `${server.steps.at(-1)}${body.board}\n`);
      return Response.json(view());
    }
  );
  const stop = () => Object.assign(server, { run: server.run + 100, steps: [server.file] });
  return { server, stop };
}

const page = () => new BoardsWork(new Unwritten("here"), /** @type {any} */ ({}), () => {});

test("marks that a stopped program held are offered, and no mark made since takes their place", async () => {
  const { server, stop } = program();
  const work = page();
  await work.open();
  await work.act({ act: "leave", board: "L2" });
  await work.act({ act: "leave", board: "C1" });
  stop();
  assert.equal(await work.act({ act: "leave", board: "C4" }), false, "it was meant beside marks that are not there");
  assert.deepEqual(work.state.faults.map((each) => each.code), ["begun_anew"]);
  assert.equal(work.state.unwritten, "L2\nC1\n");
  await work.act({ act: "leave", board: "C4" });
  const reloaded = page();
  await reloaded.open();
  assert.equal(reloaded.state.unwritten, "L2\nC1\n", "also beside what is marked since");
  await reloaded.leftOver(true);
  assert.equal(server.steps.at(-1), "L2\nC1\n");
  await reloaded.open();
  assert.equal(reloaded.state.unwritten, "");
});

test("what was never written is let go when that is said, and gone once it is written", async () => {
  const { stop } = program();
  const work = page();
  await work.open();
  await work.act({ act: "leave", board: "L2" });
  stop();
  await work.open();
  assert.equal(work.state.unwritten, "L2\n");
  await work.leftOver(false);
  assert.deepEqual([work.state.unwritten, stored.size], ["", 0]);
  await work.act({ act: "leave", board: "C1" });
  await work.step("write");
  stop();
  await work.open();
  assert.deepEqual([work.state.unwritten, stored.size], ["", 0]);
});

test("marks made beside another file are offered there alone, and held where there is no file too", async () => {
  const { server, stop } = program();
  const work = page();
  await work.open();
  await work.act({ act: "leave", board: "L2" });
  stop();
  Object.assign(server, { held: "oak", kept: "nowhere" });
  await work.open();
  assert.equal(work.state.unwritten, "");
  await work.act({ act: "leave", board: "C1" });
  stop();
  await work.open();
  assert.equal(work.state.unwritten, "C1\n");
  server.held = "cherry";
  await work.open();
  assert.equal(work.state.unwritten, "L2\n");
});

/** A page whose part a is picked at 100 mm, and whose questions wait to be answered. */
async function picked() {
  /** @type {{body: any, answer: () => Promise<void>}[]} */
  const asked = [];
  const answers = (/** @type {any} */ body) =>
    body.act ? notes(2) : { part: body.part, board: "L1", atMm: (body.atMm ?? 100) + 10 * (body.steps?.[0] ?? 0), upMm: 0, fits: true };
  globalThis.fetch = /** @type {any} */ (
    (/** @type {string} */ _address, /** @type {RequestInit} */ how) => {
      const body = typeof how.body === "string" ? JSON.parse(how.body) : null;
      const loose = ["a", "b"].map((name) => ({ name }));
      if (!body) return Promise.resolve(Response.json({ notes: notes(1), boards: [], sheets: [], loose }));
      return new Promise((done) => {
        asked.push({ body, answer: async () => (done(Response.json(answers(body))), later()) });
      });
    }
  );
  const later = () => new Promise((done) => void setImmediate(() => setImmediate(() => done(undefined))));
  const work = page();
  await work.open();
  await work.pick("a");
  void work.toBoard("L1");
  await asked.shift()?.answer();
  assert.equal(work.state.judged?.atMm, 100);
  return { work, asked, later };
}

test("what is picked or begun while a mark is on its way is not put down by its answer", async () => {
  for (const begin of [(/** @type {BoardsWork} */ work) => void work.pick("b"), (/** @type {BoardsWork} */ work) => work.mark("L1")]) {
    const { work, asked, later } = await picked();
    const acted = work.act({ act: "free", part: "a" });
    begin(work);
    const { picked: part, marking } = work.state;
    await asked.shift()?.answer();
    assert.equal(await acted, true);
    await later();
    assert.deepEqual([work.state.picked, work.state.marking], [part, marking]);
  }
});

test("steps asked for faster than they are answered are all made, and the part is held where they lead", async () => {
  const { work, asked, later } = await picked();
  void work.nudge([1, 0], false);
  void work.nudge([1, 0], false);
  void work.nudge([1, 0], false);
  void work.hold(true);
  await later();
  assert.deepEqual(asked.map(({ body }) => [body.atMm, body.steps]), [[100, [1, 0]]]);
  await asked.shift()?.answer();
  assert.deepEqual(asked.map(({ body }) => [body.atMm, body.steps]), [[110, [2, 0]]]);
  await asked.shift()?.answer();
  assert.deepEqual(asked.map(({ body }) => [body.act, body.atMm]), [["hold", 130]]);
});
