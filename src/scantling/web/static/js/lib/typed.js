/**
 * What is typed and not kept yet, when the list it belongs to changes: a place in a list is a number, and the entry
 * behind one that is taken out gets that one's number.
 */

/** @typedef {import("../profile-types.js").Typed} Typed */
/** @typedef {Readonly<Record<string, Typed>>} AllTyped by the name of the field */

/**
 * What is typed once an entry is taken out: nothing of that entry, and what belongs to those behind it one place on.
 *
 * @param {AllTyped} typed
 * @param {ReadonlyArray<string | number>} entry its path; the last of it its place in the list, or its name
 * @returns {Record<string, Typed>}
 */
export function withoutEntry(typed, entry) {
  const list = entry.slice(0, -1);
  const place = entry[list.length];
  /** @type {Record<string, Typed>} */
  const kept = {};
  for (const [field, one] of Object.entries(typed)) {
    const own = one.path[list.length];
    const beside = list.every((step, at) => one.path[at] === step);
    if (beside && own === place) continue;
    if (!beside || typeof own !== "number" || typeof place !== "number" || own < place) kept[field] = one;
    else kept[moved(field, list)] = { ...one, path: [...list, own - 1, ...one.path.slice(list.length + 1)] };
  }
  return kept;
}

/**
 * What can still be said of another version: what stands in no list. The number of an entry may be another's there.
 *
 * @param {AllTyped} typed
 * @returns {Record<string, Typed>}
 */
export function outsideLists(typed) {
  return Object.fromEntries(Object.entries(typed).filter(([, { path }]) => path.every((step) => typeof step === "string")));
}

/** The name of a field one place further forward in its list. @param {string} field @param {ReadonlyArray<string | number>} list */
function moved(field, list) {
  const before = list.map((step, at) => (typeof step === "number" ? `[${step + 1}]` : `${at ? "." : ""}${step}`)).join("");
  const behind = field.slice(before.length);
  return before + behind.replace(/^\[(\d+)\]/, (_, number) => `[${Number(number) - 1}]`);
}
