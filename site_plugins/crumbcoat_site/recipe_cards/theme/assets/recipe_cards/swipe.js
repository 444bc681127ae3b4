// Swipes: a sideways stroke of one finger.

const LEAST_PX = 80;
const LEAST_SLOPE = 3;

/** A page enlarged by more than this is moved by the finger, and not turned. */
const MOST_ZOOM = 1.05;

/**
 * Calls back with 1 for a stroke to the left, as when a page is turned, and -1 for one to the right.
 *
 * @param {HTMLElement} element
 * @param {(step: 1 | -1) => void} turn
 */
export function onSwipe(element, turn) {
  /** @type {Touch | null} */
  let start = null;
  const options = { passive: true };
  element.addEventListener(
    "touchstart",
    ({ touches }) => {
      const isZoomed = (globalThis.visualViewport?.scale ?? 1) >= MOST_ZOOM;
      start = touches.length === 1 && !isZoomed ? (touches[0] ?? null) : null;
    },
    options,
  );
  element.addEventListener("touchcancel", () => (start = null), options);
  element.addEventListener(
    "touchend",
    ({ changedTouches: [end] }) => {
      if (start && end) {
        const across = end.clientX - start.clientX;
        const down = end.clientY - start.clientY;
        if (isSwipe(across, down)) turn(across < 0 ? 1 : -1);
      }
      start = null;
    },
    options,
  );
}

/**
 * Whether a finger went sideways, far enough and straight enough; both in px.
 *
 * @param {number} across
 * @param {number} down
 */
export function isSwipe(across, down) {
  return Math.abs(across) > LEAST_PX && Math.abs(across) > LEAST_SLOPE * Math.abs(down);
}
