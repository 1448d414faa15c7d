/** What a browser keeps for a page, where there is no browser: empty it before each test. */

/** @type {Map<string, string>} */
export const stored = new Map();

Object.defineProperty(globalThis, "localStorage", {
  configurable: true,
  value: {
    getItem: (/** @type {string} */ key) => stored.get(key) ?? null,
    removeItem: (/** @type {string} */ key) => stored.delete(key),
    setItem: (/** @type {string} */ key, /** @type {string} */ value) => stored.set(key, value),
  },
});
