/** Wiring of the list of pieces: what is kept, and ways to begin one. */

import { PieceList } from "./elements/piece-list.js";
import { PieceNew } from "./elements/piece-new.js";
import { PlannedFor } from "./elements/planned-for.js";

customElements.define("planned-for", PlannedFor);
customElements.define("piece-list", PieceList);
customElements.define("piece-new", PieceNew);

document.addEventListener("piece-begun", (event) => {
  location.assign(`/pieces/${/** @type {CustomEvent} */ (event).detail}/`);
});
