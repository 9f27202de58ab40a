// A piece that is listed part by part, from the front and from above, with the sizes as typed.
import { box, dimension, rough, say } from "./drawing.js";
import { s } from "./dom.js";
import { listOf, typed, valueAt } from "./scenario.js";
import { w as words } from "./words.js";

/** @typedef {import("./types").Json} Json */
/** @typedef {{ at: [number, number, number], size: [number, number, number] }} Block */

/**
 * The parts as blocks in millimetres, left out where a place or size cannot be read.
 * @param {Json} scenario
 * @returns {Block[]}
 */
function blocks(scenario) {
  const plain = typed(valueAt(scenario, ["unit"])) || "mm";
  return listOf(valueAt(scenario, ["piece", "parts"])).flatMap((part) => {
    const three = (/** @type {string} */ name) => {
      const [x, y, z] = listOf(valueAt(part, [name])).map((length) => rough(length, plain));
      return /** @type {[number, number, number]} */ ([x ?? 0, y ?? 0, z ?? 0]);
    };
    const size = three("size");
    return size.every((length) => length > 0) ? [{ at: three("at"), size }] : [];
  });
}

/**
 * One view: what lies nearer covers what lies behind it.
 * @param {Block[]} parts
 * @param {{ across: 0 | 1 | 2, up: 0 | 1 | 2, away: 0 | 1 | 2, nearer: (a: number, b: number) => number, named: (sizes: string) => string, below: string }} look
 * @param {import("./types").SizeRow[]} sizes
 */
function view(parts, look, sizes) {
  const { across, up, away } = look;
  const end = (/** @type {0 | 1 | 2} */ axis) => Math.max(100, ...parts.map((part) => part.at[axis] + part.size[axis]));
  const start = (/** @type {0 | 1 | 2} */ axis) => Math.min(...parts.map((part) => part.at[axis]), end(axis));
  const [left, low] = [start(across), start(up)];
  const [wide, high] = [end(across) - left, end(up) - low];
  const scale = Math.min(215 / wide, 240 / high);
  const [w, hi] = [wide * scale, high * scale];
  const [x0, top] = [125 - w / 2, 16];
  const said = (/** @type {string} */ id) => sizes.find((row) => row.id === id)?.text ?? "";
  const names = /** @type {const} */ (["piece-width", "piece-depth", "piece-height"]);
  const [wideSaid, highSaid] = [said(names[across]), said(names[up])];
  const svg = s("svg", { class: "drawing", viewBox: `0 0 360 ${Math.ceil(top + hi + 48)}`, role: "img" });
  svg.setAttribute("aria-label", look.named(words.outline.by([wideSaid, highSaid].filter(Boolean))));
  const nearest = (/** @type {Block} */ part) => (look.nearer(0, 1) < 0 ? part.at[away] : part.at[away] + part.size[away]);
  for (const part of [...parts].sort((a, b) => look.nearer(nearest(b), nearest(a)))) {
    const bottom = (part.at[up] - low + part.size[up]) * scale;
    svg.append(box(x0 + (part.at[across] - left) * scale, top + hi - bottom, part.size[across] * scale, part.size[up] * scale, "part"));
  }
  if (highSaid) svg.append(dimension(x0 + w + 18, top, x0 + w + 18, top + hi, highSaid));
  if (wideSaid) svg.append(dimension(x0, top + hi + 24, x0 + w, top + hi + 24, wideSaid));
  svg.append(say(125, top + hi + 44, look.below));
  return svg;
}

/**
 * @param {Json} scenario
 * @param {import("./types").SizeRow[]} sizes as the core worked them out; none while it cannot
 * @returns {SVGElement[]}
 */
export function views(scenario, sizes) {
  const parts = blocks(scenario);
  if (parts.length === 0) return [];
  return [
    view(parts, { across: 0, up: 2, away: 1, nearer: (a, b) => a - b, named: words.outline.front, below: words.outline.belowFront }, sizes),
    view(parts, { across: 0, up: 1, away: 2, nearer: (a, b) => b - a, named: words.outline.above, below: words.outline.belowAbove }, sizes),
  ];
}
