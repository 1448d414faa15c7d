/** How the findings are summed up in a line. */

/** @typedef {import("../types.js").FindingView} FindingView */

/**
 * @typedef {object} Tally
 * @property {"bad" | "warn" | "good"} tone
 * @property {string} text
 */

/**
 * @param {readonly FindingView[]} findings
 * @returns {Tally[]} worst first; one that says so where there is nothing to settle
 */
export function verdict(findings) {
  const faults = findings.filter((each) => each.severity === "stop" || each.severity === "high").length;
  const watch = findings.filter((each) => each.severity === "medium").length;
  /** @type {Tally[]} */
  const told = [];
  if (faults) told.push({ tone: "bad", text: counted(faults, "fault to settle", "faults to settle") });
  if (watch) told.push({ tone: "warn", text: counted(watch, "thing to watch", "things to watch") });
  if (!faults) told.unshift({ tone: "good", text: "No faults found" });
  return told;
}

/** Words for how much a finding matters. @type {Readonly<Record<string, string>>} */
export const WEIGHTS = Object.freeze({ stop: "Stop", high: "Fault", medium: "Watch", note: "Note" });

/** @param {number} count @param {string} one @param {string} many */
function counted(count, one, many) {
  return `${count} ${count === 1 ? one : many}`;
}
