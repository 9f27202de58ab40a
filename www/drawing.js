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
export const line = (x1, y1, x2, y2, kind) => s("line", { x1, y1, x2, y2, class: kind });

/**
 * A dimension line with slanted ticks, level or upright.
 * @param {number} x1
 * @param {number} y1
 * @param {number} x2
 * @param {number} y2
 * @param {string} text
 */
export function dimension(x1, y1, x2, y2, text) {
  const slant = (/** @type {number} */ x, /** @type {number} */ y) => line(x - 4, y + 4, x + 4, y - 4, "slant");
  const level = y1 === y2;
  return s(
    "g",
    { class: "dimension" },
    line(x1, y1, x2, y2, "thin"),
    slant(x1, y1),
    slant(x2, y2),
    level ? say((x1 + x2) / 2, y1 - 6, text) : say(x1 + 8, (y1 + y2) / 2 + 5, text, "start"),
  );
}

/** How much of a neighbour is shown. */
export const BESIDE = 26;

/**
 * What stands beside the gap; where nothing does, the gap's edge is broken.
 * @param {string} kind
 * @param {"left" | "right"} side
 * @param {number} edge of the gap
 * @param {number} y
 * @param {number} high
 */
export function neighbour(kind, side, edge, y, high) {
  if (kind === "open") return line(edge, y, edge, y + high, "hidden-line");
  return box(side === "left" ? edge - BESIDE : edge, y, BESIDE, high, kind === "wall" ? "wall" : "cabinet");
}

/**
 * The hatch that stands for a wall cut through; one for each drawing, since ids are the page's.
 * @param {string} id
 */
export const hatch = (id) =>
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
export function contents(scenario) {
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
      grid: typed(at("arrange")) === "grid" ? Math.max(1, Math.trunc(Number(typed(at("across")))) || 0) : 0,
      said: `${typed(at("width"))} × ${typed(at("depth"))} × ${typed(at("height"))}`,
    };
  });
}
