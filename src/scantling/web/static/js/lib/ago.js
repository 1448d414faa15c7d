/** How long ago something was, in words a glance takes in. */

const STEPS = Object.freeze(/** @type {const} */ ([
  [60, "minute"],
  [24, "hour"],
  [7, "day"],
]));

/**
 * @param {string} then a time
 * @param {number} now [ms]
 * @returns {string}
 */
export function ago(then, now) {
  let amount = Math.floor((now - Date.parse(then)) / 60_000);
  if (!(amount >= 1)) return "just now";
  for (const [most, unit] of STEPS) {
    if (amount < most) return amount === 1 ? `1 ${unit} ago` : `${amount} ${unit}s ago`;
    amount = Math.floor(amount / most);
  }
  return `on ${then.slice(0, 10)}`;
}

/** How far a piece is, in words. @param {{state: string, stepsDone: number}} piece */
export function stateWords({ state, stepsDone }) {
  if (state !== "begun") return state;
  return stepsDone === 1 ? "begun, 1 step done" : `begun, ${stepsDone} steps done`;
}
