/** Wiring of the shop: its settings by chapters. */

import { ProfileBar } from "./elements/profile-bar.js";
import { ProfileText } from "./elements/profile-text.js";
import { SettingField } from "./elements/setting-field.js";
import { ShopDesk } from "./elements/shop-desk.js";
import { wire } from "./state/profile-desk.js";

customElements.define("setting-field", SettingField);
customElements.define("profile-bar", ProfileBar);
customElements.define("profile-text", ProfileText);
customElements.define("shop-desk", ShopDesk);

const found = document.querySelector("shop-desk");
if (!(found instanceof ShopDesk)) throw new Error("the page has no shop-desk");
wire("shops", found);
