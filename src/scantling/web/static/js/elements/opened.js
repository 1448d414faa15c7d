/** Which folds were opened, kept for as long as this page stays in its tab. */

const KEY = "open-folds";

/** @returns {Set<string>} */
export function readOpened() {
  try {
    const kept = JSON.parse(sessionStorage.getItem(KEY) ?? "[]");
    return new Set(Array.isArray(kept) ? kept.filter((each) => typeof each === "string") : []);
  } catch {
    return new Set(); // storage may be switched off
  }
}

/** @param {Set<string>} opened */
export function writeOpened(opened) {
  try {
    sessionStorage.setItem(KEY, JSON.stringify([...opened]));
  } catch {
    // then it lasts as long as the page
  }
}
