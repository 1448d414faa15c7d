/** The caption under the plate, in words. */

/**
 * @param {{apart: number, seeThrough: boolean, chosen: string, month?: string, larger?: number, cut?: string}} shown `chosen` and
 *   `month` as labels, or empty
 * @returns {string}
 */
export function caption({ apart, seeThrough, chosen, month = "", larger = 1, cut = "" }) {
  const stands = apart > 0 ? `Pulled apart${month ? "" : " along its joints"}` : "As it stands";
  const through = seeThrough ? ", seen through" : "";
  const open = cut ? `, cut open ${cut}` : "";
  const season = month ? `, in ${month}, ${drawnAs(larger)}` : "";
  return `${stands}${through}${open}${season}${chosen ? `. In blue: ${chosen}` : ""}.`;
}

/**
 * The part after or before another, round and round.
 *
 * @param {readonly string[]} names
 * @param {string} current empty for none
 * @param {1 | -1} way
 * @returns {string}
 */
export function neighbour(names, current, way) {
  if (names.length === 0) return "";
  const at = names.indexOf(current);
  const next = at < 0 ? (way > 0 ? 0 : names.length - 1) : (at + way + names.length) % names.length;
  return names[next] ?? "";
}

/**
 * How the movement of the wood is drawn.
 *
 * @param {number} larger
 */
export function drawnAs(larger) {
  return larger === 1 ? "movement drawn true to size" : `movement drawn ${larger} times larger`;
}
