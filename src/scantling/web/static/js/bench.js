/** Wiring of the bench. */

import { numberOf } from "./api/pieces.js";
import { BenchDesk } from "./elements/bench-desk.js";
import { Waiting } from "./state/bench-waiting.js";
import { BenchWork } from "./state/bench-work.js";

customElements.define("bench-desk", BenchDesk);

const SEND_AGAIN_MS = 30_000;

const found = document.querySelector("bench-desk");
if (!(found instanceof BenchDesk)) throw new Error("the page has no bench-desk");
const desk = found;
const number = numberOf(location.pathname);
const work = new BenchWork(number, new Waiting(number), (state) => {
  desk.state = state;
});

document.addEventListener("tell", (event) => void work.tell(/** @type {CustomEvent} */ (event).detail));
document.addEventListener("take-back", (event) => void work.takeBack(/** @type {CustomEvent} */ (event).detail));
document.addEventListener("apply-remedy", (event) => void work.mend(/** @type {CustomEvent} */ (event).detail));
document.addEventListener("choose-step", (event) => work.choose(/** @type {CustomEvent} */ (event).detail));
document.addEventListener("seen", () => work.seen());
// what another window of this browser keeps
addEventListener("storage", (event) => work.heard(event.key));
// the program was stopped, or busy: nobody says when it is there again
setInterval(() => void work.send(), SEND_AGAIN_MS);
// what another device did, and what could not be sent from here
addEventListener("focus", () => void work.open());
addEventListener("online", () => void work.open());

void work.open();
