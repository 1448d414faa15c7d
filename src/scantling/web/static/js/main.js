/** Wiring: the state goes down to the elements, their events come up and change it. */

import { numberOf } from "./api/pieces.js";
import { askScene } from "./api/plan.js";
import { EntryForm } from "./elements/entry-form.js";
import { GlanceFacts } from "./elements/glance-facts.js";
import { LinedText } from "./elements/lined-text.js";
import { MeetingList } from "./elements/meeting-list.js";
import { OldVersion } from "./elements/old-version.js";
import { PartNewForm } from "./elements/part-new.js";
import { PartSlip } from "./elements/part-slip.js";
import { PiecePlate } from "./elements/piece-plate.js";
import { PieceBrief } from "./elements/piece-brief.js";
import { PieceBar } from "./elements/piece-bar.js";
import { PieceSetting } from "./elements/piece-setting.js";
import { PlateControls } from "./elements/plate-controls.js";
import { PlateTools } from "./elements/plate-tools.js";
import { SheetPages } from "./elements/sheet-pages.js";
import { SizeField } from "./elements/size-field.js";
import { SizeForm } from "./elements/size-form.js";
import { TextBeside } from "./elements/text-beside.js";
import { ThumbIndex } from "./elements/thumb-index.js";
import { UnitSwitch } from "./elements/unit-switch.js";
import { VerdictLine } from "./elements/verdict-line.js";
import { WoodChoice } from "./elements/wood-choice.js";
import { YearSlider } from "./elements/year-slider.js";
import { UNITS, besides, readGiven, sameGiven, sizesOf, unitsOf, withUnit, withValue, writeGiven } from "./lib/given.js";
import { besideOf } from "./state/beside.js";
import { Keeping } from "./state/keeping.js";
import { Measuring } from "./state/measuring.js";
import { Planning } from "./state/planning.js";
import { Store, firstState } from "./state/store.js";
import { inUnitsOfLast, rememberUnits } from "./state/units.js";
import { Beside } from "./state/writing.js";

/** @typedef {import("./types.js").State} State */
/** @typedef {import("./types.js").Given} Given */

const ELEMENTS = {
  "entry-form": EntryForm,
  "wood-choice": WoodChoice, // before the form that holds one
  "lined-text": LinedText, // before the leaf that holds one
  "text-beside": TextBeside,
  "meeting-list": MeetingList,
  "piece-plate": PiecePlate,
  "plate-controls": PlateControls,
  "plate-tools": PlateTools,
  "old-version": OldVersion,
  "part-new": PartNewForm,
  "part-slip": PartSlip,
  "piece-bar": PieceBar,
  "piece-brief": PieceBrief,
  "piece-setting": PieceSetting,
  "verdict-line": VerdictLine,
  "glance-facts": GlanceFacts,
  "size-field": SizeField,
  "size-form": SizeForm,
  "sheet-pages": SheetPages,
  "thumb-index": ThumbIndex,
  "unit-switch": UnitSwitch,
  "year-slider": YearSlider,
};
for (const [name, element] of Object.entries(ELEMENTS)) customElements.define(name, element);

const store = new Store(firstState(inUnitsOfLast(readGiven(location.search))));
const planning = new Planning(store);
const keeping = new Keeping(numberOf(location.pathname), store);
const measuring = new Measuring(store);
const plate = one("piece-plate", PiecePlate);
plate.askScene = (given, signal, from) => askScene(given, signal, store.state.preview?.base ?? from);
const form = one("size-form", SizeForm);
const newPart = one("part-new", PartNewForm);
const meetings = one("meeting-list", MeetingList);
const setting = one("piece-setting", PieceSetting);
const brief = one("piece-brief", PieceBrief);
const pages = one("sheet-pages", SheetPages);
// in this order: the thumb index reads the chapters that the others have laid
const shown = [
  one("plate-controls", PlateControls),
  one("plate-tools", PlateTools),
  one("part-slip", PartSlip),
  one("piece-bar", PieceBar),
  newPart,
  one("unit-switch", UnitSwitch),
  one("verdict-line", VerdictLine),
  one("glance-facts", GlanceFacts),
  form,
  pages,
  one("thumb-index", ThumbIndex),
];

const leaf = one("text-beside", TextBeside);
const beside = besideOf({ store, planning, keeping, leaf, Beside, untry: () => ask(unitsOf(store.state.given)) });
keeping.told = beside.moved;

store.listen((state, before) => {
  const { preview } = state;
  plate.state = preview ? { ...state, shape: preview.shape, chosen: preview.name } : state;
  for (const element of shown) element.state = state;
  for (const slider of document.querySelectorAll("year-slider")) /** @type {YearSlider} */ (slider).state = state;
  meetings.version = state.kept?.version ?? 0;
  setting.version = state.kept?.version ?? 0;
  brief.version = state.kept?.version ?? 0;
  if (state.shape && state.shape !== before.shape) name(state.shape);
  // the piece itself has come: what was drawn to look at stands no more
  if (preview && state.shape !== before.shape) store.set({ preview: null });
});

on("choose-part", (/** @type {string} */ chosen) => {
  store.set({ chosen });
  if (newPart.open) besideTheForm();
  else if (chosen) inSight();
});
on("point-parts", (/** @type {string[]} */ pointed) => store.set({ pointed }));
on("pull-apart", (/** @type {number} */ apart) => store.set({ apart }));
on("see-through", (/** @type {boolean} */ seeThrough) => store.set({ seeThrough }));
on("choose-month", (/** @type {number} */ month) => store.set({ month }));
on("draw-larger", (/** @type {number} */ larger) => store.set({ larger }));
on("stand", (/** @type {string} */ name) => plate.stand(name));
on("show-row", (/** @type {{sheet: string, block: number, row: number}} */ where) => pages.show(where));
on("file-changed", (/** @type {import("./types.js").PieceOpen} */ opened) => {
  keeping.changed(opened);
  void planning.now();
});
on("add-part", () => {
  void newPart.begin();
  besideTheForm();
});
on("preview-part", (/** @type {State["preview"]} */ preview) => store.set({ preview }));
on("part-added", (/** @type {string} */ chosen) => {
  meetings.fresh = chosen;
  store.set({ chosen });
  besideTheForm();
});
on("apply-remedy", (/** @type {import("./types.js").Remedy} */ remedy, key) => {
  if (!keeping.number) {
    const parameter = store.state.shape?.parameters.find((each) => each.name === remedy.parameter);
    ask(withValue(store.state.given, remedy.parameter, remedy.text, parameter?.shownDefault ?? ""));
    return;
  }
  void keeping.mend(remedy).then((done) => {
    // a size tried in the address would hide what was written
    if (done && remedy.parameter) ask(withValue(store.state.given, remedy.parameter, "", ""));
    if (done) pages.tellMended(store.state.kept?.said ?? "");
    else if (key instanceof HTMLButtonElement) key.disabled = false;
    void planning.now();
  });
});
document.addEventListener("keep-sizes", (event) => {
  const below = event.target === form;
  const sizes = sizesOf(store.state.given);
  void keeping.keep().then((done) => {
    if (done) ask(besides(store.state.given, sizes)); // what was typed while they were kept stays tried
    if (below) form.say(store.state.kept?.said ?? ""); // its key is far from where that is told
  });
});
on("call-piece", (/** @type {string} */ name) => void keeping.call(name).then((done) => (done ? planning.now() : undefined)));
on("step-piece", (/** @type {"undo" | "redo"} */ way) => void keeping.step(way).then(() => planning.now()));
on("cut-open", (/** @type {{cut: State["cut"], share: number}} */ { cut, share }) => store.set({ cut, share }));
on("measure", (/** @type {boolean} */ measuring) => store.set({ measuring, picked: [], measured: null }));
on("pick-edge", (/** @type {State["picked"][number]} */ edge) => void measuring.pick(edge));
on("theme-changed", () => plate.dress());
on("reset-sizes", () => ask(unitsOf(store.state.given)));
on("show-units", (/** @type {string} */ units) => {
  rememberUnits(units);
  ask(Object.freeze({ ...store.state.given, [UNITS]: units }));
});
on("change-size", (/** @type {{name: string, text: string, written: string}} */ { name, text, written }) => {
  const parameter = store.state.shape?.parameters.find((each) => each.name === name);
  const size = withUnit(text, parameter?.unit ?? "");
  if (!beside.writes(name, withUnit(written, parameter?.unit ?? ""))) ask(withValue(store.state.given, name, size, parameter?.shownDefault ?? ""));
});
on("copy-link", () => {
  const instead = () => form.say("Copy the address of this page instead: it carries the sizes.");
  // a page that comes over a network without encryption has no clipboard
  const copying = /** @type {Clipboard | undefined} */ (navigator.clipboard)?.writeText(location.href);
  if (copying) void copying.then(() => form.say("Copied."), instead);
  else instead();
});

addEventListener("popstate", () => {
  store.set({ given: readGiven(location.search) });
  void planning.now();
});
// the piece file may have been changed meanwhile; the server says at once if it was not
addEventListener("focus", () => void Promise.all([keeping.lookAgain(), beside.lookAgain()]).then(() => planning.now()));
// gone back to, the browser may show the page as it was left
addEventListener("pageshow", ({ persisted }) => {
  if (persisted) void keeping.look().then(() => beside.lookAgain()).then(() => planning.now());
});
document.addEventListener("keydown", (event) => {
  if (event.key === "Escape" && store.state.chosen) store.set({ chosen: "" });
});

setting.number = keeping.number;
brief.number = keeping.number;
void planning.now();
void keeping.look();

/** On a phone the slip of a part would lie over what is asked and offered: it is put away. */
function besideTheForm() {
  if (!matchMedia("(min-width: 62rem)").matches) store.set({ chosen: "" });
}

/** On a phone the slip lies over the lower half of the window: the picture goes to the upper, so that what was picked is seen. */
function inSight() {
  const { top } = plate.getBoundingClientRect();
  if (top > 0 && !matchMedia("(min-width: 62rem)").matches) scrollBy({ top });
}

/** The file may have been given another name meanwhile. @param {import("./types.js").ShapeView} shape */
function name({ title, about }) {
  document.title = title;
  for (const [selector, text] of [["h1", title], [".about", about]]) {
    const element = document.querySelector(selector ?? "");
    if (element && element.textContent !== text) element.textContent = text ?? "";
  }
}

/** Ask for other sizes; the address follows, the plan a moment later. @param {Given} given */
function ask(given) {
  if (sameGiven(given, store.state.given)) return;
  history.replaceState(null, "", `${location.pathname}${writeGiven(given)}${location.hash}`);
  store.set({ given });
  planning.soon();
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

/**
 * @template Detail
 * @param {string} name
 * @param {(detail: Detail, from: EventTarget | null) => void} action
 */
function on(name, action) {
  document.addEventListener(name, (event) => action(/** @type {CustomEvent} */ (event).detail, event.target));
}
