import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { YardPile } from "../../../src/scantling/web/static/js/state/yard-pile.js";
import { stored } from "./kept-here.js";

const board = (/** @type {string} */ name) => ({ name, species: "cherry", thickness: "5/4", length: "8 ft", width: "7 in", price: "", defects: "", rings: "" });

/** @type {{verdict: string, giveBack: string[]}} what is advised of the next board */
let advice = { verdict: "", giveBack: [] };
let signal = true;

beforeEach(() => {
  stored.clear();
  advice = { verdict: "", giveBack: [] };
  signal = true;
  globalThis.fetch = /** @type {any} */ (
    async () => {
      if (!signal) throw new TypeError("away");
      const rest = { reason: "", gains: [], coveredPct: 10, enough: false, missing: [], asked: [], stacks: [], units: "mm" };
      return Response.json({ ...advice, ...rest });
    }
  );
});

/** A pile of board A, and B judged: swap it for A. */
async function swapped() {
  const pile = new YardPile("pile", {}, () => {});
  advice = { verdict: "take", giveBack: [] };
  await pile.judge(board("A"));
  advice = { verdict: "swap", giveBack: ["A"] };
  await pile.judge(board("B"));
  advice = { verdict: "", giveBack: [] };
  return pile;
}

/** @param {YardPile} pile */
const stands = ({ state }) => [state.pile.map((each) => each.name).join(" "), state.against];

test("the advised way again is the pile as it was advised, and says so once more", async () => {
  const pile = await swapped();
  assert.deepEqual(stands(pile), ["B", false]);
  await pile.otherWay();
  assert.deepEqual(stands(pile), ["A", true]);
  assert.deepEqual(pile.state.answer?.giveBack, []);
  await pile.otherWay();
  assert.deepEqual(stands(pile), ["B", false]);
  assert.deepEqual(pile.state.answer?.giveBack, ["A"]);
});

test("without a signal pile and words still say the same", async () => {
  const pile = await swapped();
  signal = false;
  await pile.otherWay();
  assert.deepEqual(stands(pile), ["A", true]);
  await pile.otherWay();
  assert.deepEqual(stands(pile), ["B", false]);
});

test("a board put back by hand has no other way any more", async () => {
  const pile = await swapped();
  signal = false;
  await pile.drop("B");
  await pile.otherWay();
  assert.deepEqual(stands(pile), ["", false]);
});

/** Answers that come when they are let go, in any order. @returns {Array<(coveredPct: number) => void>} */
function held() {
  /** @type {Array<(coveredPct: number) => void>} */
  const answers = [];
  const rest = { verdict: "take", giveBack: [], reason: "", gains: [], enough: false, missing: [], asked: [], stacks: [], units: "mm" };
  globalThis.fetch = /** @type {any} */ (
    () => new Promise((answered) => answers.push((coveredPct) => answered(Response.json({ ...rest, coveredPct }))))
  );
  return answers;
}

test("an answer to an older question says nothing of the pile that is there now", async () => {
  const pile = await swapped();
  const answers = held();
  const older = pile.stand();
  const newer = pile.drop("B");
  answers[1]?.(30);
  await newer;
  answers[0]?.(60);
  await older;
  assert.equal(pile.state.answer?.coveredPct, 30);
  assert.equal(pile.state.busy, false);
});

test("it stays busy until the last question is answered", async () => {
  const pile = await swapped();
  const answers = held();
  const older = pile.stand();
  const newer = pile.drop("B");
  answers[0]?.(60);
  await older;
  assert.equal(pile.state.busy, true);
  answers[1]?.(30);
  await newer;
  assert.deepEqual([pile.state.busy, pile.state.answer?.coveredPct], [false, 30]);
});

test("a board judged for a pile that has changed is not on it, and says so", async () => {
  const pile = await swapped();
  const answers = held();
  const judging = pile.judge(board("C"));
  const newer = pile.drop("B");
  answers[1]?.(30);
  await newer;
  answers[0]?.(60);
  assert.equal(await judging, false);
  assert.deepEqual(stands(pile), ["", false]);
});
