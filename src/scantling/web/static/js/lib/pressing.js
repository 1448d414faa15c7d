/** Keys that are pressed while the page moves under the pointer. */

/** What is pressed. */
const PRESSED = "a[href], button, summary, input[type=checkbox], input[type=radio]";
/** Moved by hand farther than this, a press may be taken back. [px] */
const STRAY_PX = 24;

/**
 * Have each press count where it began.
 *
 * A press leaves the field that was written in, and what is redrawn for it may push the key from under a pointer that
 * lies still: let go elsewhere, the browser would take it for no press at all. Until the hand itself moves away, what
 * the pointer does belongs to the key it went down on. A finger is held to where it went down by the browser.
 *
 * @param {Document} page
 */
export function holdPresses(page) {
  /** @type {{key: Element, x: number, y: number} | null} */
  let held = null;
  page.addEventListener("pointerdown", ({ target, pointerId, pointerType, button, clientX, clientY }) => {
    const key = target instanceof Element ? target.closest(PRESSED) : null;
    held = key && button === 0 && pointerType !== "touch" ? { key, x: clientX, y: clientY } : null;
    held?.key.setPointerCapture(pointerId);
  });
  page.addEventListener("pointermove", ({ pointerId, clientX, clientY }) => {
    if (!held?.key.hasPointerCapture(pointerId) || Math.hypot(clientX - held.x, clientY - held.y) <= STRAY_PX) return;
    held.key.releasePointerCapture(pointerId);
    held = null;
  });
}
