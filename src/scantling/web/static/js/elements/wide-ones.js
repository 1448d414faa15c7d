/** Drawings wider than their frame, which are moved along by keys too. */

const wideOnes = new ResizeObserver((seen) => {
  for (const { target } of seen) {
    if (target.scrollWidth > target.clientWidth) target.setAttribute("tabindex", "0");
    else target.removeAttribute("tabindex");
  }
});

/** Let keys reach a frame for as long as what is in it is wider. @param {Element} frame */
export function moveByKeys(frame) {
  wideOnes.observe(frame);
}
