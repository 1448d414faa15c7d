/** Wiring of the list of pieces: what is kept, and ways to begin one. */

import { PieceList } from "./elements/piece-list.js";
import { PieceNew } from "./elements/piece-new.js";
import { ThemeSwitch } from "./elements/theme-switch.js";

customElements.define("theme-switch", ThemeSwitch);
customElements.define("piece-list", PieceList);
customElements.define("piece-new", PieceNew);

document.addEventListener("piece-begun", (event) => {
  location.assign(`/pieces/${/** @type {CustomEvent} */ (event).detail}/`);
});
