/**
 * Light or dark, remembered on this computer.
 *
 * @fires theme-changed
 */

import { keepText, recallText } from "../lib/this-browser.js";
import { h } from "./build.js";

export class ThemeSwitch extends HTMLElement {
  #key = h("button", { type: "button", class: "key quiet" });

  connectedCallback() {
    this.#key.addEventListener("click", () => this.#turn());
    this.append(this.#key);
    this.#label();
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", (event) => {
      if (recallText("theme") === null) this.#set(event.matches ? "dark" : "light");
    });
  }

  #turn() {
    const theme = document.documentElement.dataset["theme"] === "dark" ? "light" : "dark";
    keepText("theme", theme); // where it is not kept, the choice lasts as long as the page
    this.#set(theme);
  }

  /** @param {string} theme */
  #set(theme) {
    document.documentElement.dataset["theme"] = theme;
    this.#label();
    this.dispatchEvent(new CustomEvent("theme-changed", { bubbles: true }));
  }

  #label() {
    this.#key.textContent = document.documentElement.dataset["theme"] === "dark" ? "Light" : "Dark";
  }
}
