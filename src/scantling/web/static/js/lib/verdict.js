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
  const count = (/** @type {string} */ severity) => findings.filter((each) => each.severity === severity).length;
  const stops = count("stop");
  const serious = stops + count("high");
  const watch = count("medium");
  /** @type {Tally[]} */
  const told = [];
  const apart = stops ? ` (${stops} ${stops === 1 ? "stops" : "stop"} the job)` : "";
  if (serious) told.push({ tone: "bad", text: `${serious} serious${apart}` });
  if (watch) told.push({ tone: "warn", text: `${watch} worth a change` });
  if (!serious) told.unshift({ tone: "good", text: "Nothing serious found" });
  return told;
}

/** Words for how much a finding matters. @type {Readonly<Record<string, string>>} */
export const WEIGHTS = Object.freeze({ stop: "Stop", high: "Serious", medium: "Worth a change", note: "Note" });
