// What is in the way in the drawings of the gap, with its name where there is room for it.
import { box, say } from "./drawing.js";
import { w as words } from "./words.js";

const { gap: SAYS, obstacles: { kinds: KINDS } } = words;

/** Left, top, right and bottom of a word. @typedef {[number, number, number, number]} Area */

/** How wide a letter is at the most, and how high a line. */
const [LETTER, LINE] = [8.8, 14];

/**
 * About what a text covers that is drawn about the middle of its foot.
 * @param {number} x
 * @param {number} y
 * @param {string} text
 * @returns {Area}
 */
export const written = (x, y, text) => [x - (text.length * LETTER) / 2, y - LINE + 4, x + (text.length * LETTER) / 2, y + 4];

/** @param {Area} a @param {Area} b */
const meet = (a, b) => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];

/**
 * What is in the way, seen along y (up is 2) or from above (up is 1).
 * @param {SVGElement} svg
 * @param {import("./drawing-gap.js").Reader} read
 * @param {{ left: number, base: number, scale: number, up: number }} at `base` is where z or y is nought
 * @param {Area[]} said what no name may cover
 */
export function obstacles(svg, read, { left, base, scale, up }, said) {
  const taken = [...said];
  const names = [];
  for (let i = 0; i < read.count("space", "obstacles"); i += 1) {
    const of = (/** @type {string} */ name, /** @type {number} */ axis) => read.size("space", "obstacles", i, name, axis) * scale;
    const [x, away, wide, deep] = [of("at", 0), of("at", up), of("size", 0), of("size", up)];
    if (wide <= 0 && deep <= 0) continue;
    const [high, foot] = [Math.max(deep, 2), base - away];
    svg.append(box(left + x, foot - high, Math.max(wide, 2), high, "obstacle"));
    const kind = read.said("space", "obstacles", i, "kind");
    const name = read.said("space", "obstacles", i, "name") || (Object.entries(KINDS).find(([one]) => one === kind)?.[1] ?? kind) || SAYS.obstacle;
    const middle = left + x + (up === 1 ? wide / 2 : Math.min(wide / 2, 38));
    const [above, below] = [foot - high - 4, foot + 14];
    // Beside a thin board there is more room than in it; at the wall behind, before it.
    const rows = up === 1 && foot - deep < 40 ? [below, below + LINE, below + 2 * LINE] : [above, ...(below < base ? [below] : []), above - LINE, above - 2 * LINE];
    const free = rows.find((y) => !taken.some((area) => meet(area, written(middle, y, name)))) ?? rows[0] ?? above;
    taken.push(written(middle, free, name));
    names.push(say(middle, free, name));
  }
  svg.append(...names);
}
