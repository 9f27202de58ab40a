// The cutting part of the state: the search for a better layout, and what was ticked off at the saw.
import * as planner from "./planner.js";
import { listOf, sectionOf } from "./scenario.js";

/** @typedef {import("./types").State} State */
/** @typedef {import("./types").Ticks} Ticks */
/** @typedef {import("./types").Json} Json */

/** Long enough to get on, short enough that a plan of what is typed does not wait for it. */
const SLICE_MS = 80;
/** Steps of the first slice; what a step takes is only known then. */
const FIRST = 200;

/**
 * The later of two layouts. What is the same in both stays the very same, so that a stage shows anew only what changed.
 * @param {import("./types").Cutting} before
 * @param {import("./types").Cutting} after
 * @returns {import("./types").Cutting}
 */
function renewed(before, after) {
  const names = /** @type {(keyof typeof after)[]} */ (Object.keys(after));
  const same = names.filter((name) => JSON.stringify(before[name]) === JSON.stringify(after[name]));
  return Object.assign({}, after, ...same.map((name) => ({ [name]: before[name] })));
}

/** @type {Ticks} */
export const NO_TICKS = { searched: 0, done: [], spoiled: [] };

/**
 * @param {{ get(): State, set(change: Partial<State>): void }} store
 * @param {{ good(): string, save(): void, reshape(change: (scenario: { [key: string]: Json }) => void): void }} page
 *   `good` is the text of the scenario whose plan is shown
 */
export function cuttingOf(store, page) {
  /** Which search is under way: an earlier one has nothing more to say. */
  let run = 0;
  /** The maker stopped the search of this plan. */
  let stopped = false;

  const begun = () => store.get().ticks.done.length + store.get().ticks.spoiled.length > 0;

  async function search() {
    run += 1;
    const mine = run;
    const text = page.good();
    const { cutting, ticks } = store.get();
    if (!cutting || text === "") return;
    // Once something is cut, the layout stays as it is.
    const end = begun() ? ticks.searched : Number.POSITIVE_INFINITY;
    let slice = FIRST;
    let more = store.get().search.searched < end;
    if (more) store.set({ search: { ...store.get().search, running: true } });
    while (more) {
      const since = performance.now();
      const to = Math.min(end, store.get().search.searched + slice);
      const found = await planner.cut(text, to);
      // What was ticked off meanwhile belongs to the layout that is shown, not to this one.
      if (mine !== run) return;
      if (!found) break;
      const took = performance.now() - since;
      slice = Math.max(FIRST, Math.round((slice * SLICE_MS) / Math.max(took, 1)));
      more = found.more && found.searched < end;
      const before = store.get().cutting;
      store.set({ cutting: before ? renewed(before, found.cutting) : found.cutting, search: { searched: found.searched, of: found.of, running: more, more: found.more } });
    }
    if (mine === run && store.get().search.running) store.set({ search: { ...store.get().search, running: false } });
  }

  /** @param {Partial<Ticks>} change */
  function tick(change) {
    run += 1;
    const { search: now, ticks } = store.get();
    const searched = begun() ? ticks.searched : now.searched;
    store.set({ ticks: { ...ticks, searched, ...change }, search: { ...now, running: false } });
    page.save();
  }

  /** @template T @param {T[]} list @param {T} one @param {boolean} on */
  const withOne = (list, one, on) => (on ? [...list.filter((other) => other !== one), one] : list.filter((other) => other !== one));

  return {
    /**
     * What of the state belongs to a plan that is shown from now on: ticks of another one no longer hold.
     * @param {import("./types").Plan | null} plan
     * @param {Ticks} ticks
     * @returns {Pick<State, "cutting" | "ticks" | "search">}
     */
    of(plan, ticks) {
      run += 1;
      stopped = false;
      const cutting = plan?.cutting ?? null;
      return { cutting, ticks, search: { searched: cutting?.searched ?? 0, of: 0, running: false, more: true } };
    },
    /** Searches while somebody looks at the layout, until it was stopped. */
    look() {
      if (store.get().stage === "cut" && !stopped) void search();
    },
    /** @param {boolean} on */
    searchOn(on) {
      stopped = !on;
      run += 1;
      store.set({ search: { ...store.get().search, running: false } });
      if (on) void search();
    },
    /** @param {number} n @param {boolean} done */
    tickStep(n, done) {
      tick({ done: withOne(store.get().ticks.done, n, done) });
    },
    /** @param {string} part @param {boolean} spoiled */
    tickSpoiled(part, spoiled) {
      tick({ spoiled: withOne(store.get().ticks.spoiled, part, spoiled) });
    },
    /** Writes what is there into the scenario: parts made, and stock to lay the rest out on. */
    async planTheRest() {
      const { cutting, ticks } = store.get();
      const there = cutting && (await planner.asCut(page.good(), ticks));
      if (!cutting || !there) return;
      page.reshape((scenario) => writeDown(scenario, cutting, there));
    },
  };
}

/** @param {number} um */
const millimetres = (um) => `${um / 1000} mm`;

/**
 * @param {{ [key: string]: Json }} scenario
 * @param {import("./types").Cutting} cutting
 * @param {import("./types").AsCut} there
 */
function writeDown(scenario, cutting, there) {
  const shop = sectionOf(scenario.shop);
  const before = listOf(shop.stock).map(sectionOf);
  /** @type {Json[]} What this piece takes nothing of stays as it was. */
  const stock = before.filter((one) => !cutting.job.stock.some((used) => used.material === one.material));
  for (const one of there.stock) {
    const from = cutting.job.stock[one.stock];
    const was = one.piece ? {} : (before.find((old, n) => (old.id ?? `${old.material} ${n + 1}`) === one.id) ?? {});
    /** @type {{ [key: string]: Json }} */
    const entry = { ...was, id: one.id, material: one.material, length: millimetres(one.length), width: millimetres(one.width) };
    delete entry.oversize;
    if (one.count !== undefined) entry.count = one.count;
    if (from) entry.grain = from.grain;
    if (one.piece) Object.assign(entry, { rough: [], price: 0 });
    stock.push(entry);
  }
  shop.stock = stock;
  scenario.shop = shop;
  const made = sectionOf(scenario.made);
  const parts = listOf(made.parts).map(sectionOf);
  const spoiled = new Set(there.spoiled);
  made.parts = [
    ...parts.filter((part) => !spoiled.has(String(part.id)) && !there.made.includes(String(part.id))),
    ...there.made.map((id) => parts.find((part) => part.id === id && part.spoiled !== true) ?? { id }),
  ];
  scenario.made = made;
}
