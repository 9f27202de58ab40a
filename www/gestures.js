// Fingers, mouse and wheel on the picture: one finger turns, two move and pinch, a tap picks.

/**
 * @typedef {object} Moves
 * @property {(dx: number, dy: number) => void} orbit CSS pixels
 * @property {(dx: number, dy: number) => void} pan CSS pixels
 * @property {(factor: number) => void} zoom above 1 comes closer
 * @property {(x: number, y: number) => void} tap CSS pixels from the upper left corner
 */

/** A finger that wanders less than this still taps: gloves and dust. */
const TAP_SLACK = 8;

/**
 * @param {HTMLElement} element has `touch-action: none` where it must not scroll
 * @param {Moves} moves
 * @param {() => boolean} wheelTurnsPage whether a plain wheel belongs to the page
 */
export function listen(element, moves, wheelTurnsPage) {
  /** @type {Map<number, {x: number, y: number}>} */
  const fingers = new Map();
  let wandered = 0;

  element.addEventListener("pointerdown", (event) => {
    if (event.button > 1) return;
    element.setPointerCapture(event.pointerId);
    if (fingers.size === 0) wandered = 0;
    else wandered = Infinity;
    fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
  });

  element.addEventListener("pointermove", (event) => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const now = { x: event.clientX, y: event.clientY };
    const dx = now.x - before.x;
    const dy = now.y - before.y;
    if (fingers.size === 1) {
      wandered += Math.abs(dx) + Math.abs(dy);
      if (wandered > TAP_SLACK) {
        if (event.shiftKey || (event.buttons & 4) !== 0) moves.pan(dx, dy);
        else moves.orbit(dx, dy);
      }
    } else if (fingers.size === 2) {
      const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
      if (other) {
        // Each finger reports alone, so the middle of the two moves by half of what one moves.
        moves.pan(dx / 2, dy / 2);
        const was = Math.hypot(before.x - other.x, before.y - other.y);
        const is = Math.hypot(now.x - other.x, now.y - other.y);
        if (was > 1 && is > 1) moves.zoom(is / was);
      }
    }
    fingers.set(event.pointerId, now);
  });

  /** @param {PointerEvent} event */
  const lift = (event) => {
    if (!fingers.delete(event.pointerId)) return;
    if (event.type === "pointerup" && fingers.size === 0 && wandered <= TAP_SLACK) {
      const at = element.getBoundingClientRect();
      moves.tap(event.clientX - at.left, event.clientY - at.top);
    }
  };
  element.addEventListener("pointerup", lift);
  element.addEventListener("pointercancel", lift);

  element.addEventListener(
    "wheel",
    (event) => {
      // A pinch on a trackpad comes as a wheel with the control key held.
      if (wheelTurnsPage() && !event.ctrlKey) return;
      event.preventDefault();
      const lines = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
      const by = Math.max(-120, Math.min(120, event.deltaY * lines));
      moves.zoom(Math.exp(-by * (event.ctrlKey ? 0.01 : 0.002)));
    },
    { passive: false },
  );
}
