/** Which shop and room a piece is planned for, as one value of a list and as the server takes it. */

/** @typedef {{what: "shop" | "room", kept?: number, known?: string}} Choice */

/**
 * @param {"shop" | "room"} what
 * @param {string} value `kept 3`, `known Denver, CO`, or empty for the usual one
 * @returns {Choice}
 */
export function choiceOf(what, value) {
  const [way = "", ...rest] = value.split(" ");
  const named = rest.join(" ");
  if (way === "kept") return { what, kept: Number(named) };
  return way === "known" ? { what, known: named } : { what };
}

/** @param {{kept: number | null, known: string | null}} chosen @returns {string} */
export function valueOf({ kept, known }) {
  if (kept !== null) return `kept ${kept}`;
  return known ? `known ${known}` : "";
}
