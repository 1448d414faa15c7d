/** Wiring of the papers of a piece. */

import { PaperDesk } from "./elements/paper-desk.js";
import { readGiven } from "./lib/given.js";
import { inUnitsOfLast } from "./state/units.js";

inUnitsOfLast(readGiven(location.search)); // the address names the unit from here on: the desk reads it there
customElements.define("paper-desk", PaperDesk);
