// One state, one list of listeners: every change renders from the whole state.

/**
 * @template T
 * @param {T} initial
 */
export function createStore(initial) {
  let state = initial;
  /** @type {Set<(state: T) => void>} */
  const listeners = new Set();
  return {
    get: () => state,
    /** @param {Partial<T>} change */
    set(change) {
      state = { ...state, ...change };
      for (const listener of listeners) listener(state);
    },
    /**
     * @param {(state: T) => void} listener
     * @returns {() => void} ends it
     */
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
