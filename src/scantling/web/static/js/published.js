/** The published plan: its words stand in the file, in each unit; this draws the piece over them, and shows a part's lines and sizes. */

import { PiecePlate } from "./elements/piece-plate.js";
import { PlateControls } from "./elements/plate-controls.js";
import { ThemeSwitch } from "./elements/theme-switch.js";
import { unpacked } from "./lib/unpacking.js";
import { Store, firstState } from "./state/store.js";

/** @typedef {import("./types.js").PartView} PartView */
/** @typedef {{parts: PartView[], sizes: Record<string, Record<string, Array<[string, string]>>>}} Data */

/** @type {Data} */
const data = JSON.parse(textOf("data"));
const store = new Store(firstState({}));
for (const [name, element] of Object.entries({ "piece-plate": PiecePlate, "plate-controls": PlateControls, "theme-switch": ThemeSwitch })) {
  customElements.define(name, element);
}
const plate = /** @type {PiecePlate} */ (document.querySelector("piece-plate"));
const controls = /** @type {PlateControls} */ (document.querySelector("plate-controls"));
plate.askScene = () => unpacked(textOf("scene"));

store.listen((state, before) => {
  plate.state = state;
  controls.state = state;
  if (state.chosen !== before.chosen) mark(state.chosen);
});
on("choose-part", (/** @type {string} */ chosen) => store.set({ chosen }));
on("point-parts", (/** @type {string[]} */ pointed) => store.set({ pointed }));
on("pull-apart", (/** @type {number} */ apart) => store.set({ apart }));
on("see-through", (/** @type {boolean} */ seeThrough) => store.set({ seeThrough }));
on("stand", (/** @type {string} */ name) => plate.stand(name));
on("theme-changed", () => plate.dress());
document.querySelector(".units")?.addEventListener("change", () => mark(store.state.chosen));
document.addEventListener("keydown", (event) => {
  if (event.key === "Escape") store.set({ chosen: "" });
});
const [title, about] = ["h1", ".about"].map((each) => document.querySelector(each)?.textContent ?? "");
store.set({
  busy: false,
  shape: { ok: true, title: title ?? "", about: about ?? "", units: "", bothUnits: false, key: "published", parameters: [], parts: data.parts },
});

/** Tint the lines about a part, and tell its sizes under the picture. @param {string} chosen */
function mark(chosen) {
  for (const row of document.querySelectorAll("[data-parts]")) {
    row.classList.toggle("about-part", chosen !== "" && (row.getAttribute("data-parts") ?? "").split(" ").includes(chosen));
  }
  const units = /** @type {HTMLInputElement | null} */ (document.querySelector(".units input:checked"))?.value ?? "";
  const part = data.parts.find((each) => each.name === chosen);
  const sizes = (data.sizes[units]?.[chosen] ?? []).map(([label, size]) => `${label} ${size}`);
  const told = document.querySelector(".part-told");
  if (told) told.textContent = part ? [`${part.label}, ${part.species}`, ...sizes].join(" · ") : "";
}

/** @param {string} id */
function textOf(id) {
  return document.getElementById(id)?.textContent ?? "";
}

/**
 * @template Detail
 * @param {string} name
 * @param {(detail: Detail) => void} action
 */
function on(name, action) {
  document.addEventListener(name, (event) => action(/** @type {CustomEvent} */ (event).detail));
}
