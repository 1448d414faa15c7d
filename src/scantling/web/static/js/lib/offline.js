/** What a browser keeps of what it was sent, to show it when the server does not answer. */

/** What the documents of a piece are made of; what they ask beside it they keep themselves, or cannot do alone. */
const ANSWERS = /\/api\/(piece|shape|figures|plan|scene\.glb|packet\.pdf)$|^\/api\/(pieces|forms)$/;
/** Files of the page: they are kept all together, under one name. */
const FILES = /^\/(static|fonts)\//;

/**
 * Where an answer is kept: with the files of the page, among what was opened, or nowhere.
 *
 * @param {string} method
 * @param {URL} address
 * @param {string} home origin of the page
 * @param {boolean} opened whether it is opened as a document
 * @returns {"shell" | "opened" | null}
 */
export function placeOf(method, address, home, opened) {
  if (method !== "GET" || address.origin !== home) return null;
  if (FILES.test(address.pathname)) return "shell";
  return opened || ANSWERS.test(address.pathname) ? "opened" : null;
}
