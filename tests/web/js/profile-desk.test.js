import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { ProfileDesk } from "../../../src/scantling/web/static/js/state/profile-desk.js";
import { stored } from "./kept-here.js";

const NAME = { path: ["name"] };
const MARGIN = { path: ["rates", "margin"] };
const PLACE = "typed shops 1";

Object.defineProperty(globalThis, "history", { configurable: true, value: { replaceState: () => undefined } });
beforeEach(() => {
  stored.clear();
});

/**
 * A desk with one shop; what is to be kept waits until it is let go.
 *
 * @param {number} [status] of the answer to what is to be kept
 * @returns {Promise<{desk: ProfileDesk, sent: any[], letGo: () => void}>}
 */
async function opened(status = 201) {
  /** @type {any[]} */
  const sent = [];
  let letGo = () => {};
  let version = 1;
  const shop = () => ({ profile: { number: 1, version, versions: version, name: "Barn" }, chapters: [] });
  globalThis.fetch = /** @type {any} */ (
    async (/** @type {string} */ address, /** @type {RequestInit} */ how) => {
      if (typeof how.body === "string") {
        sent.push(JSON.parse(how.body));
        await new Promise((done) => {
          letGo = () => done(undefined);
        });
        if (status !== 201) return Response.json({ errors: [{ code: "not_a_value", field: "name", rule: "must be a name" }] }, { status });
        version += 1;
        return Response.json(shop(), { status });
      }
      if (address.endsWith("/versions")) return Response.json({ versions: [] });
      return Response.json(address === "/api/shops" ? { kept: [shop().profile] } : shop());
    }
  );
  const desk = new ProfileDesk("shops", () => {});
  await desk.look();
  return { desk, sent, letGo: () => letGo() };
}

/** What is typed, by field. @param {ProfileDesk} desk */
function texts(desk) {
  return Object.fromEntries(Object.entries(desk.state.typed).map(([field, { text }]) => [field, text]));
}

/** What this browser would have again. */
function remembered() {
  const found = JSON.parse(stored.get(PLACE) ?? "null");
  return found && { version: found.version, texts: Object.values(found.typed).map((/** @type {any} */ one) => one.text) };
}

test("what is kept is typed no more", async () => {
  const { desk, sent, letGo } = await opened();
  desk.type("name", { ...NAME, text: "Shed" }, "Barn");
  const keeping = desk.keep();
  letGo();
  await keeping;
  assert.deepEqual(sent, [{ changes: [{ ...NAME, text: "Shed" }], parent: 1 }]);
  assert.deepEqual(texts(desk), {});
  assert.equal(remembered(), null);
  assert.equal(desk.state.said, "1 setting kept.");
});

test("what is typed while something is on its way to be kept stays typed, in another field and in the same", async () => {
  const { desk, letGo } = await opened();
  desk.type("name", { ...NAME, text: "Shed" }, "Barn");
  const keeping = desk.keep();
  desk.type("rates.margin", { ...MARGIN, text: "12 %" }, "");
  desk.type("name", { ...NAME, text: "Shed 2" }, "Barn");
  letGo();
  await keeping;
  assert.deepEqual(texts(desk), { "rates.margin": "12 %", name: "Shed 2" });
  assert.deepEqual(remembered(), { version: 2, texts: ["12 %", "Shed 2"] });
});

test("typed back meanwhile to what stood there it is typed anew; typed as it was sent it is kept", async () => {
  for (const [text, left] of [["Barn", { name: "Barn" }], ["Shed", {}]]) {
    const { desk, letGo } = await opened();
    desk.type("name", { ...NAME, text: "Shed" }, "Barn");
    const keeping = desk.keep();
    desk.type("name", { ...NAME, text: "She" }, "Barn");
    desk.type("name", { ...NAME, text: String(text) }, "Barn");
    letGo();
    await keeping;
    assert.deepEqual(texts(desk), left);
  }
});

test("what is refused stays typed", async () => {
  const { desk, letGo } = await opened(422);
  desk.type("name", { ...NAME, text: "Shed" }, "Barn");
  const keeping = desk.keep();
  letGo();
  await keeping;
  assert.deepEqual(texts(desk), { name: "Shed" });
  assert.deepEqual(remembered(), { version: 1, texts: ["Shed"] });
  assert.deepEqual(desk.state.faults.map(({ field }) => field), ["name"]);
});

test("a space behind what stands there waits for what comes behind it", async () => {
  const { desk } = await opened();
  desk.type("name", { ...NAME, text: "Barn " }, "Barn");
  assert.deepEqual(texts(desk), { name: "Barn " });
  desk.type("name", { ...NAME, text: "Barn" }, "Barn");
  assert.deepEqual(texts(desk), {});
});
