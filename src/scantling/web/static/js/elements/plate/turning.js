/**
 * Turning the piece by hand: drag, wheel, two fingers, keys.
 *
 * Keys: arrows turn, plus and minus come nearer and go away, 0 sets back, N and P go from part to part, Escape lets go.
 */

import { STANDS, turned, zoomed } from "../../lib/orbit.js";

/** @typedef {import("../../types.js").Pose} Pose */

const DEG_A_PIXEL = 0.45;
const KEY_DEG = 10;
const STILL_PX = 6;

/**
 * @typedef {object} Hands
 * @property {() => Pose} pose
 * @property {(pose: Pose) => void} move
 * @property {(x: number, y: number) => void} tap
 * @property {(x: number, y: number) => void} hover
 * @property {(way: 1 | -1) => void} step to the next part
 * @property {() => void} letGo
 */

/** @param {HTMLElement} host @param {Hands} hands */
export function listen(host, hands) {
  /** @type {Map<number, {x: number, y: number}>} */
  const down = new Map();
  let travelled = 0;

  host.addEventListener("pointerdown", (event) => {
    if (down.size === 0) travelled = 0;
    down.set(event.pointerId, { x: event.clientX, y: event.clientY });
    host.setPointerCapture(event.pointerId);
  });
  host.addEventListener("pointermove", (event) => {
    const from = down.get(event.pointerId);
    if (!from) {
      if (event.pointerType === "mouse") hands.hover(event.clientX, event.clientY);
      return;
    }
    const to = { x: event.clientX, y: event.clientY };
    travelled += Math.hypot(to.x - from.x, to.y - from.y);
    if (down.size === 1 && travelled > STILL_PX) {
      hands.move(turned(hands.pose(), (from.x - to.x) * DEG_A_PIXEL, (to.y - from.y) * DEG_A_PIXEL));
    } else if (down.size === 2) {
      const other = [...down].find(([id]) => id !== event.pointerId)?.[1];
      if (other) hands.move(zoomed(hands.pose(), span(from, other) / Math.max(1, span(to, other))));
    }
    down.set(event.pointerId, to);
  });
  const up = (/** @type {PointerEvent} */ event) => {
    if (down.delete(event.pointerId) && event.type === "pointerup" && travelled <= STILL_PX && down.size === 0) {
      hands.tap(event.clientX, event.clientY);
    }
  };
  host.addEventListener("pointerup", up);
  host.addEventListener("pointercancel", up);
  host.addEventListener("pointerleave", () => hands.hover(-1, -1));
  host.addEventListener(
    "wheel",
    (event) => {
      event.preventDefault();
      hands.move(zoomed(hands.pose(), Math.exp(Math.sign(event.deltaY) * Math.min(Math.abs(event.deltaY), 120) * 0.0012)));
    },
    { passive: false },
  );
  host.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const done = onKey(event.key, hands);
    if (done) event.preventDefault();
  });
}

/** @param {string} key @param {Hands} hands @returns {boolean} whether the key means something here */
function onKey(key, hands) {
  const pose = hands.pose();
  /** @type {Record<string, () => void>} */
  const keys = {
    ArrowLeft: () => hands.move(turned(pose, KEY_DEG, 0)),
    ArrowRight: () => hands.move(turned(pose, -KEY_DEG, 0)),
    ArrowUp: () => hands.move(turned(pose, 0, -KEY_DEG)),
    ArrowDown: () => hands.move(turned(pose, 0, KEY_DEG)),
    "+": () => hands.move(zoomed(pose, 0.85)),
    "=": () => hands.move(zoomed(pose, 0.85)),
    "-": () => hands.move(zoomed(pose, 1 / 0.85)),
    0: () => hands.move(STANDS["corner"] ?? pose),
    n: () => hands.step(1),
    p: () => hands.step(-1),
    Escape: () => hands.letGo(),
  };
  keys[key]?.();
  return key in keys;
}

/** @param {{x: number, y: number}} a @param {{x: number, y: number}} b */
function span(a, b) {
  return Math.hypot(a.x - b.x, a.y - b.y);
}
