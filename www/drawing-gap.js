// The gap from the front and from above, each entry where the maker's tape lay.
import { s } from "./dom.js";
import { BESIDE, box, contents, dimension, hatch, line, neighbour, rough, say } from "./drawing.js";
import { obstacles, written } from "./drawing-obstacles.js";
import { listOf, typed, valueAt } from "./scenario.js";
import { w as words } from "./words.js";

/** @typedef {import("./types").Json} Json */
/** @typedef {import("./types").Path} Path */
/** @typedef {{ at: (...path: Path) => Json | undefined, size: (...path: Path) => number, said: (...path: Path) => string, count: (...path: Path) => number }} Reader */

/**
 * @param {Json} scenario
 * @returns {Reader}
 */
function reader(scenario) {
  const at = (/** @type {Path} */ ...path) => valueAt(scenario, path);
  const plain = typed(at("unit")) || "mm";
  return {
    at,
    size: (...path) => rough(at(...path), plain),
    said: (...path) => typed(at(...path)),
    count: (...path) => listOf(at(...path)).length,
  };
}

const { gap: SAYS } = words;

/** The middle of the drawings: what is measured upright stands at their right. */
const MIDDLE = 160;
/** How many stand across. @param {ReturnType<typeof contents>[number]} thing */
const across = (thing) => (thing.grid ? Math.min(thing.grid, thing.count) : thing.inLine ? Math.min(1, thing.count) : thing.count);

/** @param {ReturnType<typeof contents>[number]} thing */
const widthOf = (thing) => across(thing) * (thing.width + thing.clearance) + thing.clearance;

/**
 * How far a slope runs over a length, roughly and with its sign, to be drawn; and how it was measured, to be said. Which
 * way it goes is said only where the maker chose it: to tell it from two distances is the core's work.
 * @param {Reader} read
 * @param {Path} path
 * @param {number} length
 */
function slope(read, path, length) {
  const over = read.size(...path, "over");
  const two = read.said(...path, "first") !== "" && read.said(...path, "second") !== "";
  const gap = read.size(...path, "gap");
  const way = read.said(...path, "way");
  if (over <= 0 || (!two && (gap <= 0 || way === ""))) return null;
  const rise = two ? read.size(...path, "first") - read.size(...path, "second") : way === "in" || way === "rises" ? gap : -gap;
  const said = two ? `${read.said(...path, "first")} / ${read.said(...path, "second")}` : read.said(...path, "gap");
  return { rise: (rise / over) * length, way: two ? "" : way, said: SAYS.over(said, read.said(...path, "over")) };
}

/**
 * A slope in words.
 * @param {keyof typeof SAYS.slopes} what
 * @param {NonNullable<ReturnType<typeof slope>>} slope
 */
function slopeWords(what, { way, said }) {
  /** @type {Record<string, ((said: string) => string) | undefined> & { either: (said: string) => string }} */
  const ways = SAYS.slopes[what];
  // What way there is comes from a file, which may say anything.
  const say = Object.hasOwn(ways, way) ? ways[way] : undefined;
  return (say ?? ways.either)(said);
}

/** Drawn greater than it is, so that the eye finds it. @param {number} rise @param {number} scale */
const shown = (rise, scale) => Math.sign(rise) * Math.min(26, Math.max(6, Math.abs(rise) * scale * 3));

/**
 * A label along an upright tape.
 * @param {number} x
 * @param {number} y
 * @param {string} text
 */
const along = (x, y, text) => s("g", { class: "dimension" }, s("text", { x, y, "text-anchor": "middle", transform: `rotate(-90 ${x} ${y})` }, text));

/**
 * A label on a line that is neither level nor upright, beside the point.
 * @param {number} x
 * @param {number} y
 * @param {string} text
 * @param {string} [anchor]
 */
const tag = (x, y, text, anchor = "middle") => s("g", { class: "dimension" }, say(x, y, text, anchor));

/**
 * The gap from the front.
 * @param {Json} scenario
 */
export function elevation(scenario) {
  const read = reader(scenario);
  const widths = listOf(read.at("space", "widths")).map((_, i) => ({
    at: read.size("space", "widths", i, "at"),
    width: read.size("space", "widths", i, "width"),
    text: read.said("space", "widths", i, "from") === "back" ? SAYS.atBack(read.said("space", "widths", i, "width")) : read.said("space", "widths", i, "width"),
  }));
  const things = contents(scenario);
  const inside = Math.max(0, ...things.map(widthOf));
  const wide = Math.max(...widths.map((w) => w.width), inside, 100);
  const high = Math.max(read.size("space", "height"), ...things.map((t) => t.height), 100);
  const scale = Math.min(190 / wide, 250 / high);
  const [w, hi] = [wide * scale, high * scale];
  const [left, top] = [MIDDLE - w / 2, 26];
  const floor = top + hi;
  const toe = read.size("build", "carcass", "toe_height") * scale;
  const leaning = captions(read, high, w / scale);
  const svg = s("svg", { class: "drawing", viewBox: `0 0 360 ${Math.ceil(floor + 12 + 20 * Math.max(1, leaning.length))}`, role: "img" }, hatch("hatch-front"));
  svg.setAttribute("aria-label", SAYS.front(widths.map((width) => width.text), read.said("space", "height")));
  svg.append(neighbour(read.said("space", "left"), "left", left, top, hi), neighbour(read.said("space", "right"), "right", left + w, top, hi));
  const above = read.said("space", "above") || "counter";
  if (above !== "open") svg.append(box(left - BESIDE, top - (above === "ceiling" ? 14 : 8), w + 2 * BESIDE, above === "ceiling" ? 14 : 8, above === "ceiling" ? "wall" : "counter"));
  svg.append(line(0, floor, 360, floor, "thick"));

  const measured = widths.filter((one) => one.width > 0).map((one) => ({ ...one, y: Math.max(top + 26, Math.min(floor - 8, floor - one.at * scale)) }));
  /** @type {SVGElement[]} What stands nearer must not cover a name. */
  const names = [];
  /** Where something is said already. */
  const said = measured.map(({ text, y }) => written(MIDDLE, y - 6, text));
  for (const thing of [...things].sort((a, b) => b.height - a.height)) {
    let x = left + (w - widthOf(thing) * scale) / 2;
    const y = floor - Math.min(toe + 8, hi / 3);
    for (let n = 0; n < across(thing); n += 1) {
      x += thing.clearance * scale;
      svg.append(box(x, y - thing.height * scale, thing.width * scale, thing.height * scale, "thing"));
      if (n === 0 && thing === things[0]) {
        const [cx, cy, text] = [x + (thing.width * scale) / 2, y - thing.height * scale * 0.45, `${thing.name}${thing.count > 1 ? ` × ${thing.count}` : ""}`];
        names.push(say(cx, cy, text));
        said.push(written(cx, cy, text));
      }
      x += thing.width * scale;
    }
  }
  svg.append(...names);
  obstacles(svg, read, { left, base: floor, scale, up: 2 }, said);
  walls(svg, read, { left, w, top, floor, high, scale });
  for (const [i, text] of leaning.entries()) svg.append(say(MIDDLE, floor + 22 + 20 * i, text));
  corners(svg, read, { left, w, top, floor });
  for (const { width, y, text } of measured) svg.append(dimension(MIDDLE - (width * scale) / 2, y, MIDDLE + (width * scale) / 2, y, text));
  heights(svg, read, { left, w, top, floor });
  return svg;
}

/**
 * What is said below the gap of walls and floor.
 * @param {Reader} read
 * @param {number} high
 * @param {number} wide
 */
function captions(read, high, wide) {
  const out = [];
  const tilt = slope(read, ["space", "floor", "across"], wide);
  const slack = read.said("space", "floor", "out_of_level");
  if (tilt) out.push(slopeWords("across", tilt));
  else if (slack) out.push(SAYS.slack(slack));
  for (const side of /** @type {const} */ (["left", "right"])) {
    const lean = slope(read, ["space", "walls", side], high);
    if (lean) out.push(slopeWords(side, lean));
  }
  return out;
}

/**
 * Walls and floor that are out, drawn three times as far out as they are.
 * @param {SVGElement} svg
 * @param {Reader} read
 * @param {{ left: number, w: number, top: number, floor: number, high: number, scale: number }} at
 */
function walls(svg, read, { left, w, top, floor, high, scale }) {
  for (const [side, foot, sign] of /** @type {const} */ ([["left", left, 1], ["right", left + w, -1]])) {
    const lean = slope(read, ["space", "walls", side], high);
    if (lean) svg.append(line(foot, floor, foot + sign * shown(lean.rise, scale), top, "lean"));
  }
  const tilt = slope(read, ["space", "floor", "across"], w / scale);
  if (tilt) svg.append(line(left, floor, left + w, floor - shown(tilt.rise, scale), "lean"));
}

/**
 * The diagonals, each from corner to corner.
 * @param {SVGElement} svg
 * @param {Reader} read
 * @param {{ left: number, w: number, top: number, floor: number }} at
 */
function corners(svg, read, { left, w, top, floor }) {
  const [rising, falling] = [read.said("space", "diagonals", "rising"), read.said("space", "diagonals", "falling")];
  const third = (/** @type {number} */ a, /** @type {number} */ b) => a + (b - a) * 0.3;
  if (rising) svg.append(line(left, floor, left + w, top, "tape"), tag(third(left + w, left), third(top, floor), rising));
  if (falling) svg.append(line(left, top, left + w, floor, "tape"), tag(third(left, left + w), third(top, floor), falling));
}

/**
 * Heights at the left, in the middle and at the right; the one that counts for all stands outside.
 * @param {SVGElement} svg
 * @param {Reader} read
 * @param {{ left: number, w: number, top: number, floor: number }} at
 */
function heights(svg, read, { left, w, top, floor }) {
  const places = { left: left + 22, middle: MIDDLE, right: left + w - 10 };
  for (let i = 0; i < read.count("space", "heights"); i += 1) {
    const side = /** @type {keyof typeof places} */ (read.said("space", "heights", i, "side"));
    const text = read.said("space", "heights", i, "height");
    const x = places[side];
    if (x && text) svg.append(line(x, top, x, floor, "tape"), along(x - 5, top + (floor - top) * 0.66, text));
  }
  svg.append(dimension(left + w + BESIDE + 8, top, left + w + BESIDE + 8, floor, read.said("space", "height")));
}

/**
 * The gap from above, the front at the bottom.
 * @param {Json} scenario
 */
export function plan(scenario) {
  const read = reader(scenario);
  const things = contents(scenario);
  const widths = listOf(read.at("space", "widths")).map((_, i) => ({
    width: read.size("space", "widths", i, "width"),
    back: read.said("space", "widths", i, "from") === "back",
    text: read.said("space", "widths", i, "width"),
  }));
  const least = Math.min(...widths.map(({ width }) => width).filter((width) => width > 0));
  const deep = Math.max(read.size("space", "depth"), 100);
  const wide = Number.isFinite(least) ? least : 400;
  const scale = Math.min(190 / wide, 200 / deep);
  const [w, d] = [wide * scale, deep * scale];
  const [left, top] = [MIDDLE - w / 2, 18];
  const front = top + d;
  const svg = s("svg", { class: "drawing", viewBox: `0 0 360 ${Math.ceil(front + 48)}`, role: "img" }, hatch("hatch-above"));
  svg.setAttribute("aria-label", SAYS.above(read.said("space", "depth")));
  svg.append(neighbour(read.said("space", "left"), "left", left, top, d), neighbour(read.said("space", "right"), "right", left + w, top, d));
  svg.append(box(left - BESIDE, top - 12, w + 2 * BESIDE, 12, "wall above"), line(left - BESIDE, front, left + w + BESIDE, front, "hidden-line"));
  /** @type {SVGElement[]} */
  const names = [];
  let y = front - 12;
  for (const thing of things) {
    const perRow = Math.max(1, across(thing));
    const [tw, td, air] = [thing.width * scale, thing.depth * scale, thing.clearance * scale];
    const start = left + (w - widthOf(thing) * scale) / 2;
    for (let n = 0; n < thing.count; n += 1) {
      const [column, row] = [n % perRow, Math.floor(n / perRow)];
      const [x, ty] = [start + air + column * (tw + air), y - row * (td + air)];
      svg.append(box(x, ty - td, tw, td, "thing"));
      if (n === 0) names.push(say(start + (widthOf(thing) * scale) / 2, ty - td / 2 + 5, thing.said));
    }
    y -= Math.ceil(thing.count / perRow) * (td + air);
  }
  svg.append(...names);
  obstacles(svg, read, { left, base: front, scale, up: 1 }, []);
  const back = slope(read, ["space", "walls", "back"], read.size("space", "height"));
  if (back) {
    const off = shown(back.rise, scale);
    svg.append(line(left, top + off, left + w, top + off, "lean"), tag(MIDDLE, top + Math.max(off, 0) + 16, slopeWords("back", back)));
  }
  const places = { left: left + 22, middle: MIDDLE, right: left + w - 10 };
  const taken = { left: 0, middle: 0, right: 0 };
  for (let i = 0; i < read.count("space", "depths"); i += 1) {
    const side = /** @type {keyof typeof places} */ (read.said("space", "depths", i, "side") || "middle");
    const text = read.said("space", "depths", i, "depth");
    const at = read.said("space", "depths", i, "at");
    if (!(side in places) || !text) continue;
    // Readings at one side and several heights stand beside each other.
    const x = places[side] + (side === "right" ? -20 : 20) * taken[side];
    taken[side] += 1;
    svg.append(line(x, top, x, front, "tape"), along(x - 5, top + d * 0.3, at ? SAYS.atHeight(text, at) : text));
  }
  for (const width of widths.filter((one) => one.back && one.width > 0)) {
    svg.append(dimension(MIDDLE - (width.width * scale) / 2, top + 22, MIDDLE + (width.width * scale) / 2, top + 22, width.text));
  }
  svg.append(dimension(left + w + BESIDE + 8, top, left + w + BESIDE + 8, front, read.said("space", "depth")), say(MIDDLE, front + 22, SAYS.below));
  const tilt = slope(read, ["space", "floor", "along"], deep);
  if (tilt) svg.append(say(MIDDLE, front + 42, slopeWords("along", tilt)));
  return svg;
}

/**
 * One way to fill a wall, as a strip.
 * @param {import("./types").Fill} fill
 */
export function strip(fill) {
  const [before, after] = fill.fillers;
  const pieces = [
    ...(before > 0 ? [{ width: before, kind: "thing" }] : []),
    ...fill.units.map((width) => ({ width, kind: "cabinet" })),
    { width: fill.custom, kind: "custom" },
    ...(after > 0 ? [{ width: after, kind: "thing" }] : []),
  ];
  const whole = pieces.reduce((sum, one) => sum + one.width, 0);
  const svg = s("svg", { class: "drawing strip", viewBox: "0 0 360 30", "aria-hidden": "true" });
  let x = 1;
  for (const { width, kind } of pieces) {
    const w = (width / whole) * 358;
    svg.append(box(x, 2, w, 26, kind));
    x += w;
  }
  return svg;
}
