/** Wiring of the papers of a piece. */

import { PaperDesk } from "./elements/paper-desk.js";

customElements.define("paper-desk", PaperDesk);
