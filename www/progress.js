// Keeps what was typed, the stage and the step across a closed tab or an empty battery.
// Every example keeps its own, so that looking at another loses nothing.
import { parse } from "./scenario.js";
import { read, write } from "./stored.js";

/**
 * `scenario` as typed; `good` the last one that gave a plan, when that is another.
 * `ticks`: what was done at the saw, for the plan of `good` or else of `scenario`.
 * @typedef {{ scenario: string, good: string, stage: string, step: number, ticks?: import("./types").Ticks }} Progress
 */

/** @param {string} example empty for a file of one's own */
const keyOf = (example) => `#${example || " own"}`;

/**
 * Whose progress a key of the storage holds.
 * @param {string} key
 * @returns {string | null} null when it holds something else
 */
export const exampleOf = (key) => (key.startsWith("#") ? key.slice(1).replace(/^ own$/, "") : null);

/**
 * What was kept, as far as it is understood.
 * @param {string | null} text
 * @returns {Progress | null}
 */
function readAs(text) {
  try {
    const kept = JSON.parse(text ?? "null");
    if (kept === null || typeof kept.scenario !== "string") return null;
    // What cannot be read again is as good as not kept; this throws then.
    parse(kept.scenario);
    const step = Number.isInteger(kept.step) && kept.step > 0 ? kept.step : 1;
    const good = typeof kept.good === "string" ? kept.good : "";
    const numbers = (/** @type {unknown} */ list) => (Array.isArray(list) ? list.filter(Number.isInteger) : []);
    const texts = (/** @type {unknown} */ list) => (Array.isArray(list) ? list.filter((one) => typeof one === "string") : []);
    const searched = Number.isInteger(kept.ticks?.searched) ? kept.ticks.searched : 0;
    const ticks = { searched, done: numbers(kept.ticks?.done), spoiled: texts(kept.ticks?.spoiled) };
    return { scenario: kept.scenario, good, stage: String(kept.stage ?? ""), step, ticks };
  } catch {
    return null;
  }
}

/**
 * @param {string} example
 * @returns {Progress | null}
 */
export const recall = (example) => readAs(read(keyOf(example)));

/**
 * @param {string} example
 * @param {Progress} progress
 * @returns {import("./stored.js").Kept}
 */
export function keep(example, progress) {
  write("last", example);
  return write(keyOf(example), JSON.stringify(progress));
}

/** Where an own file waits while another one came in. */
const ASIDE = "aside";

/**
 * Keeps the own file that is open apart, before another takes its place.
 * @param {string} comes the text of the other
 * @returns {boolean} whether there was one, and another one
 */
export function setAside(comes) {
  const text = read(keyOf(""));
  const kept = recall("");
  if (text === null || kept === null || kept.scenario === comes) return false;
  write(ASIDE, text);
  return true;
}

/** @returns {Progress | null} the one that was set aside; the other is then forgotten */
export function takeBack() {
  const text = read(ASIDE);
  const kept = readAs(text);
  write(ASIDE, null);
  // What is not understood must not take the place of what is open.
  if (kept !== null) write(keyOf(""), text);
  return kept;
}

/** @param {string} example */
export function forget(example) {
  write(keyOf(example), null);
}

/** @returns {string | null} Where the maker was last: an example, or empty for an own file. */
export function lastUsed() {
  return read("last");
}
