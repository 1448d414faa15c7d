/** Wiring of the shop: its settings by chapters. */

import { ShopDesk } from "./elements/shop-desk.js";
import { wire } from "./profile-wiring.js";

customElements.define("shop-desk", ShopDesk);

const found = document.querySelector("shop-desk");
if (!(found instanceof ShopDesk)) throw new Error("the page has no shop-desk");
wire("shops", found);
