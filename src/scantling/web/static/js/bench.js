/** Wiring of the bench. */

import { numberOf } from "./api/pieces.js";
import { BenchDesk } from "./elements/bench-desk.js";
import { UnitSwitch } from "./elements/unit-switch.js";
import { Waiting } from "./state/bench-waiting.js";
import { BenchWork } from "./state/bench-work.js";
import { rememberUnits, unitsOfLast } from "./state/units.js";

customElements.define("bench-desk", BenchDesk);
customElements.define("unit-switch", UnitSwitch);

const SEND_AGAIN_MS = 30_000;

const found = document.querySelector("bench-desk");
if (!(found instanceof BenchDesk)) throw new Error("the page has no bench-desk");
const desk = found;
const turn = document.querySelector("unit-switch");
const number = numberOf(location.pathname);
const work = new BenchWork(number, new Waiting(number), (state) => {
  desk.state = state;
  if (state.work && turn instanceof UnitSwitch) turn.shown = state.work;
});
work.units = unitsOfLast(); // not in the address: the bench opens without the program as it was opened before

document.addEventListener("tell", (event) => void work.tell(/** @type {CustomEvent} */ (event).detail));
document.addEventListener("take-back", (event) => void work.takeBack(/** @type {CustomEvent} */ (event).detail));
document.addEventListener("apply-remedy", (event) => void work.mend(/** @type {CustomEvent} */ (event).detail));
document.addEventListener("choose-step", (event) => work.choose(/** @type {CustomEvent} */ (event).detail));
document.addEventListener("show-units", (event) => {
  const units = /** @type {CustomEvent<string>} */ (event).detail;
  rememberUnits(units);
  void work.show(units);
});
document.addEventListener("seen", () => work.seen());
// what another window of this browser keeps
addEventListener("storage", (event) => work.heard(event.key));
// the program was stopped, or busy: nobody says when it is there again
setInterval(() => void work.send(), SEND_AGAIN_MS);
// what another device did, and what could not be sent from here
addEventListener("focus", () => void work.open());
addEventListener("online", () => void work.open());

void work.open();
