// Keeps the screen on while Bench is looked at, where the browser can.

/** @returns {boolean} */
export const canStayAwake = () => "wakeLock" in navigator;

/**
 * @param {(on: boolean) => void} told whether the screen stays on, each time that changes
 */
export function wakefulness(told) {
  /** @type {WakeLockSentinel | null} */
  let lock = null;
  let wanted = false;

  async function apply() {
    if (!canStayAwake()) return;
    if (!wanted) {
      await lock?.release();
      return;
    }
    if (lock || document.visibilityState !== "visible") return;
    try {
      const got = await navigator.wakeLock.request("screen");
      lock = got;
      got.addEventListener("release", () => {
        lock = null;
        told(false);
      });
      if (wanted) told(true);
      else await got.release();
    } catch (error) {
      // A device low on battery refuses.
      console.info("the screen may go dark:", error);
      told(false);
    }
  }
  // The browser lets go whenever the page is hidden.
  const seen = () => void apply();
  document.addEventListener("visibilitychange", seen);
  return {
    /** @param {boolean} on */
    want(on) {
      if (on === wanted) return;
      wanted = on;
      void apply();
    },
    end() {
      wanted = false;
      document.removeEventListener("visibilitychange", seen);
      void apply();
    },
  };
}
