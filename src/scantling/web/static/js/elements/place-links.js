/** Ways to the other documents of the piece; the sizes on show go along. */

import { writeGiven } from "../lib/given.js";
import { h } from "./build.js";

const PLACES = Object.freeze([["yard", "At the yard"]]);

export class PlaceLinks extends HTMLElement {
  #shown = "-";

  /** @param {import("../types.js").State} state */
  set state(state) {
    const sizes = writeGiven(state.planned);
    if (sizes === this.#shown) return;
    this.#shown = sizes;
    const links = PLACES.map(([path, name]) => h("a", { class: "key quiet", href: `${path}${sizes}` }, name ?? ""));
    this.replaceChildren(...links);
  }
}
