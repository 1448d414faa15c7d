/** A mark by which one thing that was done is known again: 32 hexadecimal digits, another each time. */

/** Also where a page comes over a network without encryption, and a browser offers nothing handier. */
export function newMark() {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((each) => each.toString(16).padStart(2, "0")).join("");
}
