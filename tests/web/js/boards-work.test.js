import assert from "node:assert/strict";
import { test } from "node:test";
import { BoardsWork } from "../../../src/scantling/web/static/js/state/boards-work.js";

const notes = (/** @type {number} */ parent, text = "") => ({ parent, text, name: "n", undo: false, redo: false, kept: "version", written: true, place: "", said: "" });
const MOVED = { ok: false, status: 409, current: 2, errors: [{ code: "moved_on", rule: "must be the newest", remedy: "Look at it.", message: "" }] };

/** A window that has seen step 1 while the server is at step 2. @returns {Promise<{work: BoardsWork, sent: any[]}>} */
async function behind() {
  /** @type {any[]} */
  const sent = [];
  let parent = 1;
  globalThis.fetch = /** @type {any} */ (
    async (/** @type {string} */ _address, /** @type {RequestInit} */ how) => {
      const body = typeof how.body === "string" ? JSON.parse(how.body) : null;
      if (!body) return Response.json({ notes: notes(parent, "leave: [L2]\n"), boards: [], sheets: [], loose: [] });
      sent.push(body);
      if (body.parent !== 2) return Response.json(MOVED, { status: 409 });
      return Response.json(notes(3));
    }
  );
  const work = new BoardsWork("here", /** @type {any} */ ({}), () => {});
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
  const { work, sent } = await behind();
  work.set({ unwritten: "leave: [C1]\n" });
  await work.leftOver(true);
  assert.deepEqual(sent.map((each) => each.parent), [1]);
  assert.deepEqual(work.state.faults.map((each) => each.code), ["moved_on"]);
  assert.equal(work.state.unwritten, "leave: [C1]\n");
  assert.equal(work.state.view?.notes.parent, 2);
});
