/** Wiring of the stockroom: what is there, and what happens to it. */

import { StockActs } from "./elements/stock-acts.js";
import { StockCut } from "./elements/stock-cut.js";
import { StockIn } from "./elements/stock-in.js";
import { StockRoom } from "./elements/stock-room.js";

customElements.define("stock-acts", StockActs);
customElements.define("stock-cut", StockCut);
customElements.define("stock-in", StockIn);
customElements.define("stock-room", StockRoom);
