// The gap and the things that go in, drawn to proportion with the sizes as typed.
import { s } from "./dom.js";
import { listOf, typed, valueAt } from "./scenario.js";

/** @typedef {import("./types").Json} Json */

/**
 * Roughly how long a typed size is, in millimetres, to keep the drawing in proportion. Every size that
 * matters is read by the core.
 * @param {Json | undefined} value
 * @param {string} plain what a plain number means: `in`, `cm` or `mm`
 */
export function rough(value, plain) {
  const hit = /^\s*(?:(\d+)\s*'\s*)?(\d+(?:[.,]\d+)?(?!\s*\/|\d))?[\s-]*(?:(\d+)\/(\d+))?\s*("|in|mm|cm|m)?/.exec(typed(value));
  if (!hit) return 0;
  const number = Number((hit[2] ?? "0").replace(",", ".")) + (hit[3] ? Number(hit[3]) / Number(hit[4] || 1) : 0);
  const unit = hit[5] ?? (hit[1] ? "in" : plain);
  const scale = unit === "mm" ? 1 : unit === "cm" ? 10 : unit === "m" ? 1000 : 25.4;
  const out = Number(hit[1] ?? 0) * 304.8 + number * scale;
  return Number.isFinite(out) ? Math.min(out, 10_000) : 0;
}

/**
 * @param {number} x
 * @param {number} y
 * @param {string} text
 * @param {string} [anchor]
 */
export const say = (x, y, text, anchor = "middle") => s("text", { x, y, "text-anchor": anchor }, text);

/**
 * @param {number} x
 * @param {number} y
 * @param {number} w
 * @param {number} high
 * @param {string} kind
 */
export const box = (x, y, w, high, kind) => s("rect", { x, y, width: Math.max(0, w), height: Math.max(0, high), class: kind });

/**
 * @param {number} x1
 * @param {number} y1
 * @param {number} x2
 * @param {number} y2
 * @param {string} kind
 */
const line = (x1, y1, x2, y2, kind) => s("line", { x1, y1, x2, y2, class: kind });

/**
 * A dimension line with slanted ticks, level or upright.
 * @param {number} x1
 * @param {number} y1
 * @param {number} x2
 * @param {number} y2
 * @param {string} text
 */
export function dimension(x1, y1, x2, y2, text) {
  const tick = (/** @type {number} */ x, /** @type {number} */ y) => line(x - 4, y + 4, x + 4, y - 4, "tick");
  const level = y1 === y2;
  return s(
    "g",
    { class: "dimension" },
    line(x1, y1, x2, y2, "thin"),
    tick(x1, y1),
    tick(x2, y2),
    level ? say((x1 + x2) / 2, y1 - 6, text) : say(x1 + 8, (y1 + y2) / 2 + 5, text, "start"),
  );
}

/**
 * What stands beside the gap.
 * @param {string} kind
 * @param {number} x
 * @param {number} y
 * @param {number} w
 * @param {number} high
 */
function neighbour(kind, x, y, w, high) {
  if (kind === "open") return line(w > 0 ? x : x, y, x, y + high, "hidden-line");
  return box(x, y, w, high, kind === "wall" ? "wall" : "unit");
}

/**
 * The hatch that stands for a wall cut through; one for each drawing, since ids are the page's.
 * @param {string} id
 */
const hatch = (id) =>
  s(
    "defs",
    {},
    s(
      "pattern",
      { id, width: 8, height: 8, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
      s("rect", { width: 8, height: 8, class: "hatch-ground" }),
      line(0, 0, 0, 8, "thin"),
    ),
  );

/** @param {Json} scenario */
function contents(scenario) {
  const plain = typed(valueAt(scenario, ["unit"])) || "mm";
  return listOf(valueAt(scenario, ["contents"])).map((_, i) => {
    const at = (/** @type {string} */ name) => valueAt(scenario, ["contents", i, name]);
    return {
      name: typed(at("name")),
      width: rough(at("width"), plain),
      depth: rough(at("depth"), plain),
      height: rough(at("height"), plain),
      clearance: rough(at("clearance"), plain),
      count: Math.max(0, Math.min(12, Math.trunc(Number(typed(at("count")) || 1)) || 0)),
      inLine: typed(at("arrange")) === "in-line",
      said: `${typed(at("width"))} × ${typed(at("depth"))} × ${typed(at("height"))}`,
    };
  });
}

/**
 * The gap from the front.
 * @param {Json} scenario
 */
export function elevation(scenario) {
  const at = (/** @type {import("./types").Path} */ ...path) => valueAt(scenario, path);
  const plain = typed(at("unit")) || "mm";
  const widths = listOf(at("space", "widths")).map((_, i) => ({
    at: rough(at("space", "widths", i, "at"), plain),
    width: rough(at("space", "widths", i, "width"), plain),
    text: typed(at("space", "widths", i, "width")),
  }));
  const things = contents(scenario);
  const across = (/** @type {typeof things[number]} */ thing) =>
    (thing.inLine ? 1 : thing.count) * (thing.width + thing.clearance) + thing.clearance;
  const inside = things.reduce((sum, thing) => sum + across(thing), 0);
  const wide = Math.max(...widths.map((w) => w.width), inside, 100);
  const high = Math.max(rough(at("space", "height"), plain), ...things.map((t) => t.height), 100);
  const scale = Math.min(236 / wide, 250 / high);
  const [w, hi] = [wide * scale, high * scale];
  const [left, top] = [180 - w / 2 - 10, 24];
  const floor = top + hi;
  const toe = rough(at("build", "carcass", "toe_height"), plain) * scale;
  const svg = s("svg", { class: "drawing", viewBox: `0 0 360 ${Math.ceil(floor + 34)}`, role: "img" }, hatch("hatch-front"));
  const described = widths.map((width) => width.text).join(", ");
  svg.setAttribute("aria-label", `The gap from the front: width ${described || "not given"}, height ${typed(at("space", "height")) || "not given"}`);

  svg.append(neighbour(typed(at("space", "left")), left - 40, top, 40, hi), neighbour(typed(at("space", "right")), left + w, top, 40, hi));
  svg.append(line(0, floor, 360, floor, "thick"), box(left - 40, top - 8, w + 80, 8, "counter"));
  let x = left + (w - inside * scale) / 2;
  for (const thing of things) {
    const shown = thing.inLine ? Math.min(1, thing.count) : thing.count;
    for (let n = 0; n < shown; n += 1) {
      x += thing.clearance * scale;
      svg.append(box(x, floor - Math.min(toe + 8, hi / 3) - thing.height * scale, thing.width * scale, thing.height * scale, "thing"));
      if (n === 0) {
        const middle = x + (thing.width * scale) / 2;
        const y = floor - Math.min(toe + 8, hi / 3);
        svg.append(say(middle, y - 10, `${thing.name}${thing.count > 1 ? ` × ${thing.count}` : ""}`));
      }
      x += thing.width * scale;
    }
  }
  for (const width of widths.filter((one) => one.width > 0)) {
    const y = Math.max(top + 30, Math.min(floor - 8, floor - width.at * scale));
    const middle = left + w / 2;
    svg.append(dimension(middle - (width.width * scale) / 2, y, middle + (width.width * scale) / 2, y, width.text));
  }
  svg.append(dimension(left + w + 50, top, left + w + 50, floor, typed(at("space", "height"))));
  const slope = typed(at("space", "floor", "out_of_level"));
  if (slope) svg.append(say(180, floor + 22, `floor out of level ${slope}`));
  return svg;
}

/**
 * The gap from above, the front at the bottom.
 * @param {Json} scenario
 */
export function plan(scenario) {
  const at = (/** @type {import("./types").Path} */ ...path) => valueAt(scenario, path);
  const plain = typed(at("unit")) || "mm";
  const things = contents(scenario);
  const widths = listOf(at("space", "widths")).map((_, i) => rough(at("space", "widths", i, "width"), plain));
  const least = Math.min(...widths.filter((width) => width > 0));
  const deep = Math.max(rough(at("space", "depth"), plain), 100);
  const wide = Number.isFinite(least) ? least : 400;
  const scale = Math.min(236 / wide, 200 / deep);
  const [w, d] = [wide * scale, deep * scale];
  const [left, top] = [180 - w / 2 - 10, 18];
  const front = top + d;
  const svg = s("svg", { class: "drawing", viewBox: `0 0 360 ${Math.ceil(front + 34)}`, role: "img" }, hatch("hatch-above"));
  svg.setAttribute("aria-label", `The gap from above: depth ${typed(at("space", "depth")) || "not given"}`);
  svg.append(neighbour(typed(at("space", "left")), left - 40, top, 40, d), neighbour(typed(at("space", "right")), left + w, top, 40, d));
  svg.append(box(left - 40, top - 12, w + 80, 12, "wall above"), line(left - 40, front, left + w + 40, front, "hidden-line"));
  const inside = things.reduce(
    (sum, thing) => sum + (thing.inLine ? Math.min(1, thing.count) : thing.count) * (thing.width + thing.clearance) + thing.clearance,
    0,
  );
  let x = left + (w - inside * scale) / 2;
  for (const thing of things) {
    x += thing.clearance * scale;
    let y = front - 12;
    for (let n = 0; n < thing.count; n += 1) {
      const [tw, td] = [thing.width * scale, thing.depth * scale];
      svg.append(box(x, y - td, tw, td, "thing"));
      if (n === 0) svg.append(say(x + tw / 2, y - td / 2 + 5, thing.said));
      if (thing.inLine) y -= td + thing.clearance * scale;
      else x += tw + thing.clearance * scale;
    }
    if (thing.inLine) x += (thing.width + thing.clearance) * scale;
  }
  svg.append(dimension(left + w + 50, top, left + w + 50, front, typed(at("space", "depth"))), say(180, front + 22, "front"));
  return svg;
}
