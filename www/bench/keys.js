// Keys and foot pedals: a pedal sends the space bar, the page keys or the arrows.

/** What has a use for keys of its own. */
const FIELDS = "input, select, textarea, [contenteditable]";
/** What the space bar presses. */
const CONTROLS = "button, a, summary";

/**
 * What a key asks for, or nothing.
 * @param {KeyboardEvent} event
 * @param {HTMLElement} words scrolls by arrow when it runs over
 * @returns {"next" | "back" | "again" | null}
 */
export function wanted(event, words) {
  if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return null;
  const target = event.target instanceof HTMLElement ? event.target : null;
  if (target?.closest(FIELDS) || target?.closest("dialog")) return null;
  const onControl = Boolean(target?.closest(CONTROLS));
  switch (event.key) {
    case "ArrowRight":
    case "PageDown":
      return "next";
    case "ArrowLeft":
    case "PageUp":
      return "back";
    case " ":
      return onControl ? null : event.shiftKey ? "back" : "next";
    case "ArrowDown":
    case "ArrowUp": {
      // Reading on goes before turning over.
      const scrolls = target === words && words.scrollHeight > words.clientHeight + 1;
      if (onControl || scrolls) return null;
      return event.key === "ArrowDown" ? "next" : "back";
    }
    case "r":
    case "R":
      return "again";
    default:
      return null;
  }
}
