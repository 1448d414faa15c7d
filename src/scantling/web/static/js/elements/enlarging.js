/** A drawing looked at larger: over the whole window, put away by its key or Escape. */

import { h } from "./build.js";

/** Show a drawing over the whole window, large enough to read from the bench. @param {HTMLElement} frame @param {string} label */
export function enlarge(frame, label) {
  const away = h("button", { type: "button", class: "key", onclick: () => dialog.close() }, "Put away");
  const dialog = h("dialog", { class: "enlarged", "aria-label": label, onclose: () => dialog.remove() }, away);
  for (const drawn of frame.children) dialog.append(drawn.cloneNode(true));
  document.body.append(dialog);
  dialog.showModal();
}
