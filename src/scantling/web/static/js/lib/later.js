/**
 * Calls a function once the calls have stopped for a while.
 *
 * @template {unknown[]} Arguments
 * @param {(...given: Arguments) => void} action
 * @param {number} quietMs
 * @returns {(...given: Arguments) => void}
 */
export function later(action, quietMs) {
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let waiting;
  return (...given) => {
    clearTimeout(waiting);
    waiting = setTimeout(() => action(...given), quietMs);
  };
}
