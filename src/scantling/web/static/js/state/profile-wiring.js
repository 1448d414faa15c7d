/** What the documents of shops and of rooms share: the state goes down to the desk, its events come up. */

import { ProfileDesk } from "./profile-desk.js";

/** @typedef {import("../profile-types.js").Kind} Kind */
/** @typedef {import("../profile-types.js").DeskState} DeskState */

/**
 * @param {Kind} kind
 * @param {HTMLElement & {state: DeskState | null}} element
 */
export function wire(kind, element) {
  const desk = new ProfileDesk(kind, (state) => {
    element.state = state;
  });
  on("type-setting", ({ field, path, text, written }) => desk.type(field, { path, text }, written));
  on("put-back", ({ field, path, label }) => {
    desk.type(field, { path, text: "" }, "");
    void desk.change("settings", { changes: [{ path, text: "" }] }, `${label}: back to its default.`);
  });
  on("keep-typed", () => void desk.keep().then(() => toFault(element)));
  on("let-go", () => desk.letGo());
  on("open-kept", (number) => void desk.open(number));
  on("begin-kept", (fresh) => void desk.begin(fresh).then(() => scrollTo({ top: 0 })));
  on("step-kept", (way) => void desk.change(way, {}, way === "undo" ? "Undone." : "Done again."));
  on("restore", (version) => void desk.change("restore", { version }, `Version ${version} is back.`));
  on("put-away", () => void desk.putAway());
  on("change-kept", ({ what, change, said, done }) => void desk.change(what, change, said).then((kept) => kept && done?.()));
  void desk.look(Number(new URLSearchParams(location.search).get("of") ?? 0));
}

/** Lead to the first field that is refused. @param {HTMLElement} element */
function toFault(element) {
  requestAnimationFrame(() => {
    const field = element.querySelector("[aria-invalid=true]");
    if (field instanceof HTMLElement) field.focus();
  });
}

/** @param {string} name @param {(detail: any) => void} action */
function on(name, action) {
  document.addEventListener(name, (event) => action(/** @type {CustomEvent} */ (event).detail));
}
