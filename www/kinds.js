// Kinds of unit: which fields of `build` make each, and how it is told from a file.
import { listOf, sectionOf, valueAt } from "./scenario.js";
import { w } from "./words.js";

/** @typedef {import("./types").Json} Json */
/** @typedef {{ id: Exclude<keyof typeof w.kinds, "title">, build: { [key: string]: Json } }} Kind */

/** What a kind sets; other fields of the build stay as they are.
 * @type {Kind[]} */
export const KINDS = [
  { id: "pull-out", build: { pull_out: {}, front: {} } },
  { id: "drawers", build: { drawers: { count: 3 }, front: {} } },
  { id: "doors", build: { doors: {}, shelves: { count: 1, fixing: "pins" }, front: {} } },
  { id: "drawer-doors", build: { drawers: { count: 1 }, doors: {}, shelves: { count: 1, fixing: "pins" }, front: {} } },
  { id: "locker", build: { doors: { count: 1 }, shelves: { count: 2 }, front: {}, carcass: { top: "panel" } } },
  { id: "wall", build: { doors: {}, shelves: { count: 2 }, front: {}, carcass: { top: "panel", toe_height: 0 } } },
  { id: "bench", build: { pull_out: {}, dividers: { count: 1 }, front: {}, carcass: { top: "over" } } },
  { id: "open-base", build: { shelves: { count: 1 } } },
  { id: "open", build: { shelves: { count: 2 }, carcass: { top: "panel" } } },
  { id: "divided", build: { shelves: { count: 1, fixing: "pins" }, dividers: { count: 1 }, carcass: { top: "panel" } } },
];

/** What tells kinds apart, so it goes when another is chosen. */
const OWN = ["pull_out", "drawers", "doors", "shelves", "dividers", "front"];

/**
 * What a carcass stands on: boards or bodies of the plan. A wall unit has none of them.
 * @param {import("./types").Part} part
 */
const isFoot = (part) => part.id === "toe-kick" || part.group === "platform" || part.id.startsWith("leg-");

/**
 * The kind of a scenario, as near as its fields and parts tell.
 * @param {Json} scenario
 * @param {import("./types").Part[]} parts as the core made them of it; none while it cannot
 * @returns {string}
 */
export function kindOf(scenario, parts) {
  const has = (/** @type {string} */ name) => valueAt(scenario, ["build", name]) !== undefined;
  const top = valueAt(scenario, ["build", "carcass", "top"]);
  if (has("pull_out")) return top === "over" || has("dividers") ? "bench" : "pull-out";
  if (has("drawers")) return has("doors") || has("shelves") ? "drawer-doors" : "drawers";
  if (has("doors")) {
    if (top !== "panel") return "doors";
    return parts.length > 0 && !parts.some(isFoot) ? "wall" : "locker";
  }
  if (has("dividers")) return "divided";
  return top === "panel" ? "open" : "open-base";
}

/**
 * Makes a scenario one of another kind: sizes, sheets and everything else stay.
 * @param {{ [key: string]: Json }} scenario changed in place
 * @param {string} id
 * @param {string} was the kind that it is now
 */
export function become(scenario, id, was) {
  const kind = KINDS.find((one) => one.id === id);
  if (!kind) return;
  const before = sectionOf(scenario.build);
  /** @type {{ [key: string]: Json }} */
  const build = {};
  for (const [name, value] of Object.entries(before)) if (!OWN.includes(name)) build[name] = value;
  for (const [name, value] of Object.entries(kind.build)) {
    if (name !== "carcass") build[name] = before[name] === undefined ? value : { ...sectionOf(value), ...sectionOf(before[name]) };
  }
  // The shape of another kind does not stay behind.
  const { top: _top, top_overhang: _over, ...carcass } = sectionOf(before.carcass);
  if (was === "wall") delete carcass.toe_height;
  build.carcass = { ...carcass, ...sectionOf(kind.build.carcass) };
  if (!build.pull_out && build.front) {
    const { style: _style, drawer_height: _height, ...front } = sectionOf(build.front);
    build.front = front;
  }
  scenario.build = build;
  if (build.pull_out && listOf(scenario.contents ?? null).length === 0) {
    const inches = scenario.unit === "in";
    scenario.contents = [{ name: w.contents.bin, width: inches ? "8" : 200, depth: inches ? "8" : 200, height: inches ? "10" : 250, count: 1 }];
  }
}
