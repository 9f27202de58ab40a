// What the browser keeps for the page. Storage may be switched off or full: then this tab alone
// keeps it, and the page says so.

// Several copies may be hosted under one origin: the path keeps them apart.
const PREFIX = `jointwise/1${new URL("./", location.href).pathname}`;

/** How well the last write went: on this device, in this tab only, or not at all.
 * @typedef {"device" | "tab" | "nowhere"} Kept */

/** Asked each time: reading the name of a storage that is switched off throws.
 * @type {(() => Storage)[]} */
const PLACES = [() => localStorage, () => sessionStorage];

/**
 * @param {string} key
 * @returns {string | null}
 */
export function read(key) {
  // What the tab alone keeps is the newer: it is written when the device no longer takes anything.
  for (const place of [...PLACES].reverse()) {
    try {
      const found = place().getItem(PREFIX + key);
      if (found !== null) return found;
    } catch {
      // Switched off: the next place may know.
    }
  }
  return null;
}

/**
 * @param {string} key
 * @param {string | null} value nothing takes it out
 * @returns {Kept}
 */
export function write(key, value) {
  /** @type {Kept[]} */
  const said = ["device", "tab"];
  for (const [i, place] of PLACES.entries()) {
    try {
      const store = place();
      if (value === null) {
        store.removeItem(PREFIX + key);
      } else {
        store.setItem(PREFIX + key, value);
        if (i === 0) forgetInTab(key);
        return said[i] ?? "nowhere";
      }
    } catch {
      // Full or switched off: the next place may take it.
    }
  }
  return value === null ? "device" : "nowhere";
}

/** An older copy in the tab must not be read before the device's.
 * @param {string} key */
function forgetInTab(key) {
  try {
    sessionStorage.removeItem(PREFIX + key);
  } catch {
    // Then there is no copy either.
  }
}

/**
 * Tells what another tab has written.
 * @param {(key: string, value: string | null) => void} told
 * @returns {() => void} ends it
 */
export function whenElsewhere(told) {
  const listener = (/** @type {StorageEvent} */ event) => {
    if (event.key?.startsWith(PREFIX)) told(event.key.slice(PREFIX.length), event.newValue);
  };
  addEventListener("storage", listener);
  return () => removeEventListener("storage", listener);
}
