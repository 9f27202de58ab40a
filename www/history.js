// Undo and redo: whole scenarios, one step for a run of edits to the same field.

/** @typedef {import("./types").Json} Json */

/** Enough for an afternoon; each entry shares what it did not change with its neighbours. */
const MOST = 200;
/** Edits of one field within this time of each other are one step. */
const RUN_MS = 1500;

export function createHistory() {
  /** @type {Json[]} */
  let past = [];
  /** @type {Json[]} */
  let future = [];
  let last = "";
  let at = 0;
  return {
    /**
     * Before a change: what was there.
     * @param {Json} before
     * @param {string} key the field that changes; empty for a change of its own
     */
    note(before, key) {
      const now = Date.now();
      const same = key !== "" && key === last && now - at < RUN_MS;
      last = key;
      at = now;
      future = [];
      if (same || before === null) return;
      past = [...past.slice(1 - MOST), before];
    },
    /** @param {Json} now */
    undo(now) {
      const back = past.pop();
      if (back === undefined) return undefined;
      future.push(now);
      last = "";
      return back;
    },
    /** @param {Json} now */
    redo(now) {
      const forth = future.pop();
      if (forth === undefined) return undefined;
      past.push(now);
      last = "";
      return forth;
    },
    forget() {
      past = [];
      future = [];
      last = "";
    },
    get counts() {
      return { undo: past.length, redo: future.length };
    },
  };
}
