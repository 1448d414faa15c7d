/** The caption under the plate, in words. */

/**
 * @param {{apart: number, seeThrough: boolean, chosen: string}} shown `chosen` as a label, or empty
 * @returns {string}
 */
export function caption({ apart, seeThrough, chosen }) {
  const stands = apart > 0 ? "Pulled apart along its joints" : "As it stands";
  const through = seeThrough ? ", seen through" : "";
  return `${stands}${through}${chosen ? `. In blue: ${chosen}` : ""}.`;
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
