/** A step up or down on the scale the server gave for a parameter; no unit is converted here. */

/** @typedef {import("../types.js").ParameterView} ParameterView */

/**
 * The next value on the scale, kept within its limits.
 *
 * @param {Pick<ParameterView, "value" | "step" | "least" | "most">} scale
 * @param {number} steps 1 up, -1 down
 * @returns {number}
 */
export function stepped({ value, step, least, most }, steps) {
  const onScale = Math.round(value / step);
  const moved = (onScale + steps) * step;
  const low = least ?? -Infinity;
  const high = most ?? Infinity;
  return round(Math.min(high, Math.max(low, moved)));
}

/**
 * A number of the scale as it is written in the field.
 *
 * @param {number} value
 * @param {string} unit
 * @returns {string}
 */
export function written(value, unit) {
  return unit ? `${round(value)} ${unit}` : `${round(value)}`;
}

/** @param {number} value */
function round(value) {
  return Number(value.toFixed(6)) + 0;
}
