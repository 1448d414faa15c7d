import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { Beside, Writing } from "../../../src/scantling/web/static/js/state/writing.js";
import { stored } from "./kept-here.js";

/** @typedef {import("../../../src/scantling/web/static/js/types.js").Content} Content */

/** @typedef {{what: string, body: any, answer: () => void}} Waiting */

/** What was asked and is not answered yet. @type {Waiting[]} */
let waiting = [];
let versions = ["rings: rift\n"];

beforeEach(() => {
  stored.clear();
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
  if (what === "step") versions.push(versions.at(-2) ?? "");
  if (what === "step") return Response.json(opened());
  if (body.parent !== versions.length) return moved(body.content);
  if (what === "typed") return Response.json({ content: body.content, draft: "d", errors: [], entries: [] });
  versions.push(body.content.piece);
  return Response.json(opened());
}

globalThis.fetch = /** @type {any} */ (
  (/** @type {string} */ address, /** @type {RequestInit} */ how) => {
    const body = typeof how.body === "string" ? JSON.parse(how.body) : null;
    const [, last = ""] = /\/(\w+)$/.exec(address) ?? [];
    const kinds = { versions: body ? "save" : "versions", drafts: "as it is", undo: "step", restore: "step" };
    const what = Object.hasOwn(kinds, last) ? kinds[/** @type {keyof typeof kinds} */ (last)] : body ? "typed" : "open";
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

/** The page that writes, opened; what it asks beside its saves is never answered. */
async function writes() {
  const writing = new Writing(1, () => {});
  void writing.open();
  await answered("open");
  return writing;
}

/** Saved after somebody else, and told of it. */
async function clashes() {
  const writing = await writes();
  versions.push("rings: flat\n");
  writing.type(content("rings: quarter\n"));
  void writing.save("");
  await answered("save");
  assert.ok(writing.state.clash);
  return writing;
}

test("what is typed after a clash was told is kept with what is mine", async () => {
  const writing = await clashes();
  writing.type(content("rings: quarter\nside: sap\n"));
  void writing.settle("yours");
  await answered("save");
  assert.equal(versions.at(-1), "rings: quarter\nside: sap\n");
  assert.deepEqual([writing.state.content?.piece, writing.state.changed], [versions.at(-1), false]);
});

test("what is typed after a clash was told is brought together anew", async () => {
  const writing = await clashes();
  writing.type(content("rings: quarter\nside: sap\n"));
  void writing.settle("merged");
  await waited();
  assert.deepEqual(waiting.filter((each) => each.what === "save").map((each) => [each.body.content.piece, each.body.parent]), [["rings: quarter\nside: sap\n", 1]]);
  await answered("save");
  assert.equal(writing.state.content?.piece, "rings: quarter\nside: sap\n");
  void writing.settle("merged");
  await answered("save");
  assert.deepEqual([versions.length, writing.state.changed], [3, false]);
});

test("what is typed while both changes are on their way to be saved is no save over the other's", async () => {
  const writing = await clashes();
  void writing.settle("merged");
  await waited();
  writing.type(content("rings: quarter\nside: sap\n"));
  await answered("save");
  assert.equal(writing.state.content?.piece, "rings: quarter\nside: sap\n");
  assert.equal(writing.state.piece?.version, 1);
});

test("what is typed while a step back is on its way stays, and is kept in this browser", async () => {
  versions.push("rings: flat\n");
  const writing = await writes();
  void writing.step("undo");
  await waited();
  writing.type(content("rings: flat\nside: sap\n"));
  await answered("step");
  assert.deepEqual([writing.state.content?.piece, writing.state.changed], ["rings: flat\nside: sap\n", true]);
  assert.match([...stored.values()].join(), /side: sap/);
});

test("no version is brought back over what is not saved", async () => {
  versions.push("rings: flat\n");
  const writing = await writes();
  writing.type(content("rings: quarter\n"));
  void writing.restore(1);
  await waited();
  assert.deepEqual(waiting.filter((each) => each.what === "step"), []);
  assert.equal(writing.state.content?.piece, "rings: quarter\n");
});

test("a save asked for twice is one, and what is typed between is saved after it", async () => {
  for (const begin of [writes, begun]) {
    versions = ["rings: rift\n"];
    waiting = [];
    stored.clear();
    const writing = await begin();
    const saves = () => waiting.filter((each) => each.what === "save").length;
    writing.type(content("rings: quarter\n"));
    void writing.save("");
    void writing.save("");
    await waited();
    assert.equal(saves(), 1);
    writing.type(content("rings: flat\n"));
    void writing.save("");
    await answered("save");
    await answered("save");
    assert.deepEqual([versions.slice(1), saves()], [["rings: quarter\n", "rings: flat\n"], 0]);
    assert.deepEqual([writing.state.changed, writing.state.clash, writing.state.piece?.version], [false, null, 3]);
  }
});
