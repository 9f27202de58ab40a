// Elevation and plan of the piece as it is sized now, from the parts' own boxes.
import { h, s } from "./dom.js";
import { box, dimension, say } from "./drawing.js";
import { w as words } from "./words.js";

/** @typedef {import("./types").Part} Part */
/** @typedef {import("./types").SizeRow} SizeRow */

/** Longest side of a drawing on the sheet; every drawing is as wide, so that all figures come out equally large. */
const LONG = 160;
const MARGIN = 96;

/**
 * @param {Part[]} parts
 * @param {[number, number]} axes along the sheet, and up it
 * @param {string} label
 * @param {[string, string]} sizes said along the two sides
 * @param {(a: Part, b: Part) => number} nearer later ones cover earlier ones
 */
function view(parts, axes, label, sizes, nearer) {
  const boxes = parts.flatMap((part) => part.boxes);
  const [u, v] = axes;
  const least = (/** @type {number} */ a) => Math.min(...boxes.map((b) => b[a] ?? 0));
  const most = (/** @type {number} */ a) => Math.max(...boxes.map((b) => b[a + 3] ?? 0));
  const [left, low] = [least(u), least(v)];
  const [wide, high] = [most(u) - left, most(v) - low];
  const scale = LONG / Math.max(wide, high, 1);
  const [w, t] = [wide * scale, high * scale];
  const kids = [...parts].sort(nearer).flatMap((part) =>
    part.boxes.map((b) =>
      box(
        MARGIN + ((b[u] ?? 0) - left) * scale,
        12 + t - ((b[v + 3] ?? 0) - low) * scale,
        ((b[u + 3] ?? 0) - (b[u] ?? 0)) * scale,
        ((b[v + 3] ?? 0) - (b[v] ?? 0)) * scale,
        part.kind === "hardware" ? "bought" : "board",
      ),
    ),
  );
  const drawing = s(
    "svg",
    { viewBox: `0 0 ${LONG + MARGIN + 20} ${t + 62}`, class: "drawing size-drawing", role: "img", "aria-label": words.size.drawn(label, ...sizes) },
    ...kids,
    dimension(MARGIN, t + 28, MARGIN + w, t + 28, ""),
    say(MARGIN + w / 2, t + 54, sizes[0]),
    dimension(MARGIN - 14, 12 + t, MARGIN - 14, 12, ""),
    say(MARGIN - 24, 16 + t / 2, sizes[1], "end"),
  );
  return h("figure", {}, drawing, h("figcaption", { class: "quiet" }, label));
}

/**
 * @param {Part[]} parts
 * @param {SizeRow[]} sizes
 */
export function drawings(parts, sizes) {
  const text = (/** @type {string} */ id) => sizes.find((row) => row.id === `carcass-${id}` || row.id === `piece-${id}`)?.text ?? "";
  const back = (/** @type {Part} */ part) => -Math.min(...part.boxes.map((b) => b[1] ?? 0));
  const up = (/** @type {Part} */ part) => Math.max(...part.boxes.map((b) => b[5] ?? 0));
  // From the front, what is nearest is drawn last. From above the doors and what lies under them show.
  return [
    view(parts, [0, 2], words.size.front, [text("width"), text("height")], (a, b) => back(a) - back(b)),
    view(parts, [0, 1], words.size.above, [text("width"), text("depth")], (a, b) => up(a) - up(b)),
  ];
}
