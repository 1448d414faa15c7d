/** The thumb index: a tab for each chapter, cut into the edge of the page. */

import { h } from "./build.js";

/** @typedef {import("../types.js").State} State */

export class ThumbIndex extends HTMLElement {
  #list = h("ol");
  #shown = "";
  /** @type {IntersectionObserver | null} */
  #watch = null;

  connectedCallback() {
    const nav = h("nav", { "aria-label": "Chapters" }, this.#list);
    this.append(nav);
  }

  /** @param {State} _ */
  set state(_) {
    const chapters = [...document.querySelectorAll(".chapter")];
    const shown = chapters.map((each) => each.id).join(" ");
    if (shown !== this.#shown) this.#tabs(chapters);
    this.#shown = shown;
    this.#observe(chapters);
  }

  /** @param {Element[]} chapters */
  #tabs(chapters) {
    this.#list.replaceChildren(
      ...chapters.map((each, i) => {
        const title = each.querySelector("h2")?.lastChild?.textContent ?? "";
        const link = h("a", { href: `#${each.id}` }, h("span", { class: "no" }, String(i + 1)), h("span", { class: "name" }, title));
        return h("li", {}, link);
      }),
    );
  }

  /** @param {Element[]} chapters */
  #observe(chapters) {
    this.#watch?.disconnect();
    this.#watch = new IntersectionObserver(() => this.#follow(chapters), { rootMargin: "-30% 0px -60% 0px" });
    for (const each of chapters) this.#watch.observe(each);
  }

  /** Mark the chapter that is being read. @param {Element[]} chapters */
  #follow(chapters) {
    const line = innerHeight * 0.4;
    const read = chapters.filter((each) => each.getBoundingClientRect().top < line).at(-1) ?? chapters[0];
    for (const link of this.#list.querySelectorAll("a")) {
      const now = link.getAttribute("href") === `#${read?.id}`;
      link.setAttribute("aria-current", String(now));
      if (now && this.#list.scrollWidth > this.#list.clientWidth) this.#list.scrollTo({ left: link.offsetLeft - 24 });
    }
  }
}
