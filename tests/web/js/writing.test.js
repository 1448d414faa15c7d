import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { Beside } from "../../../src/scantling/web/static/js/state/writing.js";

/** @typedef {import("../../../src/scantling/web/static/js/types.js").Content} Content */

/** @type {Map<string, string>} */
let stored = new Map();
Object.defineProperty(globalThis, "localStorage", {
  configurable: true,
  value: {
    getItem: (/** @type {string} */ key) => stored.get(key) ?? null,
    removeItem: (/** @type {string} */ key) => stored.delete(key),
    setItem: (/** @type {string} */ key, /** @type {string} */ value) => stored.set(key, value),
  },
});

/** @typedef {{what: string, body: any, answer: () => void}} Waiting */

/** What was asked and is not answered yet. @type {Waiting[]} */
let waiting = [];
let versions = ["rings: rift\n"];

beforeEach(() => {
  stored = new Map();
  waiting = [];
  versions = ["rings: rift\n"];
});

const content = (/** @type {string} */ piece) => ({ piece, shop: null, rack: null, room: null, bench: null, given: {} });
const opened = () => ({ piece: { number: 1, version: versions.length }, content: content(versions.at(-1) ?? "") });
const moved = (/** @type {Content} */ yours) => {
  const theirs = opened().content;
  return Response.json({ current: versions.length, theirs, merged: theirs, yours, clashes: [], errors: [{ message: "moved on" }] }, { status: 409 });
};

/** What a server that keeps versions answers. @param {string} what @param {any} body */
function served(what, body) {
  if (what === "open") return Response.json(opened());
  if (body.parent !== versions.length) return moved(body.content);
  if (what === "typed") return Response.json({ content: body.content, draft: "d", errors: [], entries: [] });
  versions.push(body.content.piece);
  return Response.json(opened());
}

globalThis.fetch = /** @type {any} */ (
  (/** @type {string} */ address, /** @type {RequestInit} */ how) => {
    const body = typeof how.body === "string" ? JSON.parse(how.body) : null;
    const what = !body ? "open" : address.endsWith("/versions") ? "save" : "typed";
    return new Promise((done) => {
      // the server comes to what it answers, and the answer leaves, at once
      waiting.push({ what, body, answer: () => done(served(what, body)) });
    });
  }
);

/** Let the server answer what was asked first of a kind. @param {string} what */
async function answered(what) {
  await waited();
  const at = waiting.findIndex((each) => each.what === what);
  assert.notEqual(at, -1, `nothing of the kind ${what} is asked`);
  waiting.splice(at, 1)[0]?.answer();
  await waited();
}

const waited = () => new Promise((done) => setImmediate(done));

/** A piece of one line, opened beside its picture. */
async function begun() {
  const beside = new Beside(1, () => {}, { drawn: () => {}, saved: () => {} });
  const opening = beside.open();
  await answered("open");
  await answered("typed");
  await opening;
  return beside;
}

test("a text that was asked about before it was saved is not told as changed elsewhere", async () => {
  const beside = await begun();
  beside.type(content("rings: quarter\n"));
  void beside.asIs();
  void beside.save("");
  await answered("save"); // the server saves first, and looks at the text after
  const late = beside.state.said;
  await answered("typed");
  await answered("typed");
  assert.deepEqual([late, beside.state.said], ["Saved.", "Saved."]);
  assert.equal(beside.state.content?.piece, "rings: quarter\n");
  assert.equal(beside.state.changed, false);
});

test("what the server says of the text while the save is on its way is asked again after it", async () => {
  const beside = await begun();
  beside.type(content("rings: quarter\n"));
  void beside.asIs();
  void beside.save("");
  await waited();
  versions.push("rings: quarter\n"); // it is kept, and the answer is on its way
  const save = waiting.splice(waiting.findIndex((each) => each.what === "save"), 1)[0];
  await answered("typed");
  assert.equal(beside.state.said, "");
  versions.pop();
  save?.answer();
  await waited();
  await answered("typed");
  assert.equal(beside.state.said, "Saved.");
});

test("a change made elsewhere before the save is brought together with what is typed", async () => {
  const beside = await begun();
  versions.push("rings: flat\n");
  beside.type(content("rings: quarter\n"));
  void beside.asIs();
  await answered("typed");
  assert.match(beside.state.said, /^Changed on the page, and brought together/);
  assert.equal(beside.state.content?.piece, "rings: flat\n");
});

test("what was there before a save does not come back with an answer that comes late", async () => {
  const beside = await begun();
  void beside.lookAgain();
  await waited();
  const late = waiting.splice(0, 1)[0];
  const before = opened();
  beside.type(content("rings: quarter\n"));
  void beside.save("");
  await answered("save");
  await answered("typed");
  assert.deepEqual([before.piece.version, versions.length], [1, 2]);
  versions.pop(); // the answer was given before the save
  late?.answer();
  versions.push("rings: quarter\n");
  await waited();
  await waited();
  assert.equal(beside.state.content?.piece, "rings: quarter\n");
});
