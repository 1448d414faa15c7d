/**
 * What this browser keeps by name, from one opening of a page to the next. Storage may be switched off, full, or hold
 * what cannot be read: then nothing is found, nothing fails, and whoever keeps something is told whether it is kept.
 * Where there is no room for something newer, what was kept under its name before stays: it is all there is to go back to.
 */

/** A text as it was kept; null where there is none. @param {string} name @returns {string | null} */
export function recallText(name) {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
}

/** @param {string} name @param {string} text @returns {boolean} whether it is kept */
export function keepText(name, text) {
  try {
    localStorage.setItem(name, text);
    return true;
  } catch {
    return false;
  }
}

/** What was kept, in whatever shape an older page kept it; null where there is nothing to be read. @param {string} name @returns {any} */
export function recall(name) {
  try {
    return JSON.parse(recallText(name) ?? "null");
  } catch {
    return null;
  }
}

/** @param {string} name @param {unknown} what it comes back as JSON has it @returns {boolean} whether it is kept */
export function keep(name, what) {
  return keepText(name, JSON.stringify(what));
}

/** What is said of something typed and not saved, by whether it is kept here. @param {boolean} held */
export function keptWords(held) {
  return held ? "kept in this browser" : "lost when this page is closed, for this browser keeps nothing";
}

/** @param {string} name */
export function forget(name) {
  try {
    localStorage.removeItem(name);
  } catch {
    // switched off: nothing was kept
  }
}

/** Names under which something is kept. @param {string} beginning of each of them @returns {string[]} */
export function namesFrom(beginning) {
  try {
    const names = Array.from({ length: localStorage.length }, (_, at) => localStorage.key(at) ?? "");
    return names.filter((name) => name.startsWith(beginning));
  } catch {
    return [];
  }
}
