// Which steps are ticked off, kept for each piece. A step is known by what it says and not by its
// number, so that ticks stay with their steps when the order is planned anew.
import { read, write } from "../stored.js";

/** @typedef {import("../types").Step} Step */

/** @param {string} example */
const keyOf = (example) => `done${example || " own"}`;

/**
 * @param {Step[]} steps
 * @returns {string[]} a name for each; equal ones are counted
 */
export function names(steps) {
  /** @type {Map<string, number>} */
  const seen = new Map();
  return steps.map((step) => {
    const name = `${step.body}: ${step.text}`;
    const before = seen.get(name) ?? 0;
    seen.set(name, before + 1);
    return before === 0 ? name : `${name} (${before + 1})`;
  });
}

/**
 * @param {string} example
 * @returns {Set<string>}
 */
export function ticked(example) {
  try {
    const kept = JSON.parse(read(keyOf(example)) ?? "[]");
    return new Set(Array.isArray(kept) ? kept.filter((name) => typeof name === "string") : []);
  } catch {
    return new Set();
  }
}

/**
 * @param {string} example
 * @param {string[]} which
 * @param {boolean} done
 */
export function tick(example, which, done) {
  // Read anew: another tab may have ticked meanwhile.
  const all = ticked(example);
  for (const name of which) {
    if (done) all.add(name);
    else all.delete(name);
  }
  write(keyOf(example), all.size > 0 ? JSON.stringify([...all]) : null);
}

/**
 * Whether a key of the storage belongs to these ticks.
 * @param {string} key
 * @param {string} example
 */
export const isTicks = (key, example) => key === keyOf(example);
