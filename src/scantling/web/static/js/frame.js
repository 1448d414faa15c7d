/**
 * Wiring of what every document has: light or dark, keys that hold what is pressed, and the strip of places.
 * Sizes that were tried and not kept go along to the places that can show them.
 */

import { ThemeSwitch } from "./elements/theme-switch.js";
import { holdPresses } from "./lib/pressing.js";

if (!customElements.get("theme-switch")) customElements.define("theme-switch", ThemeSwitch);

holdPresses(document);

const places = document.querySelector("nav.places");

// before the browser follows the link, by whichever finger, button or key
for (const event of ["pointerdown", "click"]) {
  places?.addEventListener(
    event,
    ({ target }) => {
      const link = target instanceof Element ? target.closest("a[data-sizes]") : null;
      if (link instanceof HTMLAnchorElement) link.search = location.search;
    },
    { capture: true },
  );
}

const here = places?.querySelector("[aria-current]");
const list = here?.closest("ul");
if (here instanceof HTMLElement && list && list.scrollWidth > list.clientWidth) list.scrollLeft = here.offsetLeft - 24;
