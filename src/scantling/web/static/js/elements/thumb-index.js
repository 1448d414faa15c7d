/** The thumb index: a tab for each chapter, cut into the edge of the page. The one being read is marked. */

import { h } from "./build.js";

/** @typedef {import("../types.js").State} State */

/** A chapter is being read once its head has come this near to where a link to it would put it. */
const NEAR_PX = 60;

export class ThumbIndex extends HTMLElement {
  #list = h("ol");
  #shown = "";
  #waiting = 0;

  connectedCallback() {
    this.append(h("nav", { "aria-label": "Chapters" }, this.#list));
    for (const event of ["scroll", "resize"]) addEventListener(event, () => this.#soon(), { passive: true });
  }

  /** @param {State} _ */
  set state(_) {
    const chapters = [...document.querySelectorAll(".chapter")];
    const shown = chapters.map((each) => each.id).join(" ");
    if (shown !== this.#shown) this.#tabs(chapters);
    this.#shown = shown;
    this.#soon();
  }

  /** @param {Element[]} chapters */
  #tabs(chapters) {
    this.#list.replaceChildren(
      ...chapters.map((each, i) => {
        const title = each.querySelector("h2")?.lastChild?.textContent ?? "";
        const number = h("span", { class: "no" }, String(i + 1));
        return h("li", {}, h("a", { href: `#${each.id}` }, number, h("span", { class: "name" }, title)));
      }),
    );
  }

  /** Once before the next frame, however often the page moves. */
  #soon() {
    this.#waiting ||= requestAnimationFrame(() => {
      this.#waiting = 0;
      this.#follow();
    });
  }

  /** Mark the chapter that is being read. */
  #follow() {
    const head = Number.parseFloat(getComputedStyle(document.documentElement).scrollPaddingTop) || 0;
    const chapters = [...document.querySelectorAll(".chapter")];
    const read = chapters.filter((each) => each.getBoundingClientRect().top < head + NEAR_PX).at(-1) ?? chapters[0];
    for (const link of this.#list.querySelectorAll("a")) {
      const now = link.getAttribute("href") === `#${read?.id}`;
      if (now === (link.getAttribute("aria-current") === "true")) continue;
      link.setAttribute("aria-current", String(now));
      if (now && this.#list.scrollWidth > this.#list.clientWidth) this.#list.scrollTo({ left: link.offsetLeft - 24 });
    }
  }
}
