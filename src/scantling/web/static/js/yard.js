/** Wiring of the page for the yard: the pile goes down to the desk, its events come up and change it. */

import { numberOf } from "./api/pieces.js";
import { YardDesk } from "./elements/yard-desk.js";
import { readGiven } from "./lib/given.js";
import { inUnitsOfLast } from "./state/units.js";
import { YardPile } from "./state/yard-pile.js";

customElements.define("yard-desk", YardDesk);

const found = document.querySelector("yard-desk");
if (!(found instanceof YardDesk)) throw new Error("the page has no yard-desk");
const desk = found;
const given = inUnitsOfLast(readGiven(location.search));
const number = numberOf(location.pathname);
desk.kept = number > 0;
const pile = new YardPile(`pile ${location.pathname}`, given, (state) => {
  desk.state = state;
});

document.addEventListener("judge-board", (event) => {
  void pile.judge(/** @type {CustomEvent} */ (event).detail).then((judged) => {
    if (!judged) return;
    desk.clear();
    scrollTo({ top: 0, behavior: matchMedia("(prefers-reduced-motion: reduce)").matches ? "auto" : "smooth" });
  });
});
document.addEventListener("other-way", () => void pile.otherWay());
document.addEventListener("drop-board", (event) => void pile.drop(/** @type {CustomEvent} */ (event).detail));
document.addEventListener("take-pile", (event) => {
  void pile.takeAsRack(number, /** @type {CustomEvent} */ (event).detail).then((taken) => {
    if (taken) location.assign(`boards${location.search}`);
  });
});
document.addEventListener("keep-pile", () => {
  void pile.asFile().then((blob) => {
    desk.taken = blob !== null;
    if (!blob) return;
    const link = document.createElement("a");
    link.href = URL.createObjectURL(blob);
    link.download = "pile.csv";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  });
});

void pile.stand();
