/** Settings that belong together as markup, for shops and rooms alike; and what was refused that has no field. */

import { html, nothing } from "lit";
import { repeat } from "lit/directives/repeat.js";
import { belongs, told } from "../lib/faults.js";
import { keptWords } from "../lib/this-browser.js";

/** @typedef {import("../profile-types.js").DeskState} DeskState */
/** @typedef {import("../profile-types.js").SettingBody} SettingBody */
/** @typedef {import("../types.js").FaultView} FaultView */

/** @param {readonly SettingBody[]} settings @param {DeskState} state */
export function settingFields(settings, { typed, faults }) {
  return html`<div class="settings">
    ${repeat(
      settings,
      (setting) => setting.field,
      (setting) =>
        html`<setting-field
          .setting=${setting}
          .typed=${typed[setting.field]?.text}
          .faults=${faults.filter((fault) => belongs(fault.field, setting.field))}
        ></setting-field>`,
    )}
  </div>`;
}

/** Faults that stand at none of some fields. @param {readonly SettingBody[]} settings @param {DeskState} state @returns {FaultView[]} */
export function apartFrom(settings, { faults }) {
  return faults.filter((fault) => !settings.some((setting) => belongs(fault.field, setting.field)));
}

/** What was refused, where it has no field to stand at. @param {readonly FaultView[]} apart */
export function faultsApart(apart) {
  if (!apart.length) return nothing;
  return html`<div class="notice bad" role="alert">
    ${apart.map((fault) => html`<p>${told(fault)}</p>`)}
  </div>`;
}

/** What is typed and not kept yet, with its keys, always in reach. @param {DeskState} state @param {() => void} letGo */
export function typedBar({ typed, held, faults, busy }, letGo) {
  const count = Object.keys(typed).length;
  if (!count) return nothing;
  const wrong = faults.length ? `, ${faults.length} to mend` : "";
  return html`<div class="chosen typed-bar">
    <p role="status">${count === 1 ? "1 setting typed, not kept yet" : `${count} settings typed, not kept yet`}${wrong}${held ? "" : `; ${keptWords(false)}`}</p>
    <div class="ways">
      <button class="key main" ?disabled=${busy}>Keep</button>
      <button type="button" class="key" ?disabled=${busy} @click=${letGo}>Let go</button>
    </div>
  </div>`;
}
