/** Wiring of the page on which the files of a piece are written. */

import { numberOf } from "./api/pieces.js";
import { LinedText } from "./elements/lined-text.js";
import { TextDesk } from "./elements/text-desk.js";
import { VersionList } from "./elements/version-list.js";
import { Writing } from "./state/writing.js";

customElements.define("version-list", VersionList);
customElements.define("lined-text", LinedText); // before the desk that holds one
customElements.define("text-desk", TextDesk);

const found = document.querySelector("text-desk");
if (!(found instanceof TextDesk)) throw new Error("the page has no text-desk");
const desk = found;
const writing = new Writing(numberOf(location.pathname), (state) => {
  desk.state = state;
});

on("change-text", (/** @type {{what: "piece" | "shop" | "rack" | "room", text: string}} */ { what, text }) => writing.change(what, text));
on("attach", (/** @type {{what: "shop" | "rack" | "room", name: string, text: string | null}} */ file) => writing.attach(file));
on("detach", (/** @type {"shop" | "rack" | "room"} */ what) => writing.detach(what));
on("save", (/** @type {string} */ why) => void writing.save(why));
on("step", (/** @type {"undo" | "redo"} */ way) => void writing.step(way));
on("restore", (/** @type {number} */ version) => void writing.restore(version));
on("settle", (/** @type {"merged" | "theirs" | "yours"} */ way) => void writing.settle(way));

addEventListener("beforeunload", (event) => {
  if (writing.state.changed) event.preventDefault();
});
addEventListener("keydown", (event) => {
  if ((event.ctrlKey || event.metaKey) && event.key === "s") {
    event.preventDefault();
    void writing.save("");
  }
});

void writing.open();

/**
 * @template Detail
 * @param {string} name
 * @param {(detail: Detail) => void} action
 */
function on(name, action) {
  document.addEventListener(name, (event) => action(/** @type {CustomEvent} */ (event).detail));
}
