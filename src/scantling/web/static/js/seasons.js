/** Wiring of the seasons: the plate and the slider show the month, the sheets what the year does. */

import { Refused, askShape } from "./api/plan.js";
import { PiecePlate } from "./elements/piece-plate.js";
import { RoomChoice } from "./elements/room-choice.js";
import { SeasonSheets } from "./elements/season-sheets.js";
import { UnitSwitch } from "./elements/unit-switch.js";
import { VerdictRoom } from "./elements/verdict-room.js";
import { YearSlider } from "./elements/year-slider.js";
import { UNITS, readGiven, writeGiven } from "./lib/given.js";
import { SeasonYears } from "./state/season-years.js";
import { Store, firstState } from "./state/store.js";
import { inUnitsOfLast, rememberUnits } from "./state/units.js";

/** @typedef {import("./types.js").Given} Given */

customElements.define("piece-plate", PiecePlate);
customElements.define("year-slider", YearSlider);
customElements.define("unit-switch", UnitSwitch);
customElements.define("room-choice", RoomChoice);
customElements.define("season-sheets", SeasonSheets);
customElements.define("verdict-room", VerdictRoom);

const ELSEWHERE = "elsewhere";
let { [ELSEWHERE]: elsewhere = "", ...given } = /** @type {Record<string, string>} */ (inUnitsOfLast(readGiven(location.search)));
const plate = one("piece-plate", PiecePlate);
const slider = one("year-slider", YearSlider);
const units = one("unit-switch", UnitSwitch);
const choice = one("room-choice", RoomChoice);
const sheets = one("season-sheets", SeasonSheets);
const verdict = one("verdict-room", VerdictRoom);
const store = new Store(firstState(given));
const years = new SeasonYears((state) => {
  choice.state = state;
  verdict.state = state;
  sheets.state = state;
  const year = state.seasons?.year;
  const { shape, plan } = store.state;
  if (shape && year && plan?.year !== year) store.set({ plan: { ...shape, sheets: [], findings: [], year, whole: true }, busy: false });
});

store.listen((state) => {
  plate.state = state;
  slider.state = state;
  units.state = state;
});

on("choose-month", (month) => store.set({ month }));
on("draw-larger", (larger) => store.set({ larger }));
on("choose-part", (chosen) => store.set({ chosen }));
on("point-parts", (pointed) => store.set({ pointed }));
on("theme-changed", () => plate.dress());
on("choose-room", (room) => {
  elsewhere = room;
  address();
  void years.look(given, elsewhere);
});
on("show-units", (shown) => {
  rememberUnits(shown);
  given = { ...given, [UNITS]: shown };
  address();
  void open();
});
// a row of the sheets points at its parts
for (const event of ["pointerover", "focusin"]) {
  sheets.addEventListener(event, ({ target }) => {
    const row = target instanceof Element ? target.closest("[data-parts]") : null;
    const pointed = row instanceof HTMLElement ? (row.dataset["parts"] ?? "").split(" ") : [];
    if (pointed.join(" ") !== store.state.pointed.join(" ")) store.set({ pointed });
  });
}
sheets.addEventListener("click", ({ target }) => {
  const row = target instanceof Element && target.closest(".point") ? target.closest("[data-parts]") : null;
  if (row instanceof HTMLElement) store.set({ chosen: (row.dataset["parts"] ?? "").split(" ")[0] ?? "" });
});
document.addEventListener("keydown", (event) => {
  if (event.key === "Escape" && store.state.chosen) store.set({ chosen: "" });
});

void open();

async function open() {
  store.set({ given, busy: true });
  try {
    store.set({ shape: await askShape(given, new AbortController().signal), shaped: given, plan: null });
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    store.set({ faults: error.faults, busy: false });
  }
  years.set({ build: null });
  await years.look(given, elsewhere);
  await years.lookWhen(given);
}

/** The address carries the sizes and the room, to be sent on. */
function address() {
  history.replaceState(null, "", `${location.pathname}${writeGiven(elsewhere ? { ...given, [ELSEWHERE]: elsewhere } : given)}`);
}

/**
 * @template {HTMLElement} Kind
 * @param {string} name
 * @param {new () => Kind} kind
 * @returns {Kind}
 */
function one(name, kind) {
  const element = document.querySelector(name);
  if (!(element instanceof kind)) throw new Error(`the page has no ${name}`);
  return element;
}

/** @param {string} name @param {(detail: any) => void} action */
function on(name, action) {
  document.addEventListener(name, (event) => action(/** @type {CustomEvent} */ (event).detail));
}
