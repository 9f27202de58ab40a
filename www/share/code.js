// A QR code as a drawing.
import { s } from "../dom.js";
import { w } from "../words.js";
import { qr } from "./qr.js";

/** White round it, in modules, as the standard asks. */
const QUIET = 4;
/** More modules a side than this, and a telephone does not read it from a screen. Tried by the size of
 * a module on a tablet: 0.5 mm; from memory, phones need about that. */
const MOST = 141;

/**
 * @param {string} text
 * @returns {SVGSVGElement | null} nothing when it does not fit
 */
export function code(text) {
  const square = qr(text);
  if (!square || square.length > MOST) return null;
  const n = square.length + 2 * QUIET;
  const path = square.map((row, y) => row.map((on, x) => (on ? `M${x + QUIET} ${y + QUIET}h1v1h-1z` : "")).join("")).join("");
  return s("svg", { class: "code", viewBox: `0 0 ${n} ${n}`, role: "img", "aria-label": w.share.codeLabel, "shape-rendering": "crispEdges" }, s("rect", { width: n, height: n, fill: "#fff" }), s("path", { d: path, fill: "#000" }));
}
