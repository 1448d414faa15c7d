/** Wiring of the rooms: those of the maker's own, and those known by name. */

import { RoomDesk } from "./elements/room-desk.js";
import { RoomYear } from "./elements/room-year.js";
import { wire } from "./profile-wiring.js";

customElements.define("room-year", RoomYear);
customElements.define("room-desk", RoomDesk);

const found = document.querySelector("room-desk");
if (!(found instanceof RoomDesk)) throw new Error("the page has no room-desk");
wire("rooms", found);
