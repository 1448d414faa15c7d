/** Wiring of the rooms: those of the maker's own, and those known by name. */

import { ProfileBar } from "./elements/profile-bar.js";
import { ProfileText } from "./elements/profile-text.js";
import { RoomDesk } from "./elements/room-desk.js";
import { RoomYear } from "./elements/room-year.js";
import { SettingField } from "./elements/setting-field.js";
import { wire } from "./state/profile-desk.js";

customElements.define("setting-field", SettingField);
customElements.define("profile-bar", ProfileBar);
customElements.define("profile-text", ProfileText);
customElements.define("room-year", RoomYear);
customElements.define("room-desk", RoomDesk);

const found = document.querySelector("room-desk");
if (!(found instanceof RoomDesk)) throw new Error("the page has no room-desk");
wire("rooms", found);
