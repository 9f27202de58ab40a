// Small signs drawn by hand on a 24 by 24 field; the words beside them carry the meaning.
import { s } from "./dom.js";

/** @type {Record<string, string[]>} Strokes; a leading `!` fills instead. */
const STROKES = {
  "screw-flat": ["M3 3h18l-6 5.500H9z", "M9 8.500V18l3 5 3-5V8.5", "M7 13.500l10-2.5", "M7 18l10-2.5"],
  "screw-pan": ["M4 8c0-4 3-6 8-6s8 2 8 6z", "M9 8v10l3 5 3-5V8", "M7 13.500l10-2.5", "M7 18l10-2.5"],
  hand: ["M7 12V6.5a1.5 1.5 0 0 1 3 0V11V4.5a1.5 1.5 0 0 1 3 0V11V5.5a1.5 1.5 0 0 1 3 0V12V8.5a1.5 1.5 0 0 1 3 0V15c0 4-2.5 6.5-6.5 6.5-3 0-4.5-1-6-3.5L3.4 14a1.6 1.6 0 0 1 2.6-1.8L7 13.5"],
  clamp: ["M4 3v18h4", "M4 3h13v4", "M14 7h6", "M17 11v10", "M14 11h6", "M14 21h6", "M8 18v5"],
  spacer: ["!M4 9h16v6H4z", "M4 4v16", "M20 4v16"],
  bench: ["M2 8h20v3H2z", "M5 11v10", "M19 11v10"],
  helper: ["M8 8m-3 0a3 3 0 1 0 6 0a3 3 0 1 0-6 0", "M16.5 9m-2.5 0a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0-5 0", "M2 20c0-5 2.5-7 6-7s6 2 6 7", "M15 13.5c4 0 6.5 2 6.5 6.5"],
  check: ["M4 4h16v16H4z", "M8 12l3 4 6-8"],
  square: ["M4 20V4", "M4 20h16", "M4 14h6v6"],
  caution: ["M12 3l10 18H2z", "M12 9v6", "!M11 17h2v2h-2z"],
  stop: ["M8 2h8l6 6v8l-6 6H8l-6-6V8z", "M7 12h10"],
  fix: ["M4 20l9-9", "M13 11a4.5 4.5 0 0 1 6-6l-3 3 1 2 2 1 2.6-3a4.5 4.5 0 0 1-6 6"],
  note: ["M12 12m-9 0a9 9 0 1 0 18 0a9 9 0 1 0-18 0", "M12 11v6", "!M11 7h2v2h-2z"],
  glue: ["M12 3c4 5 6 8 6 11a6 6 0 0 1-12 0c0-3 2-6 6-11z"],
  line: ["M3 4v16h18V4z", "M7 12h2.500", "M11 12h2.500", "M15 12h2.500"],
  driver: ["M3 4h8v6H3z", "M11 7h5v4", "M16 11v6", "M14 17h4l-2 5z"],
  clock: ["M12 12m-9 0a9 9 0 1 0 18 0a9 9 0 1 0-18 0", "M12 7v5l3.5 2"],
  left: ["M14 5l-7 7 7 7"],
  right: ["M10 5l7 7-7 7"],
  "turn-left": ["M19 16c0-5-3-8-7-8-3 0-5 1-7 3", "M4 5v6.500h6.5"],
  "turn-right": ["M5 16c0-5 3-8 7-8 3 0 5 1 7 3", "M20 5v6.500h-6.5"],
  up: ["M5 15l7-7 7 7"],
  down: ["M5 9l7 7 7-7"],
  closer: ["M12 4v16", "M4 12h16"],
  farther: ["M4 12h16"],
  home: ["M3 8V3h5", "M16 3h5v5", "M21 16v5h-5", "M8 21H3v-5", "!M9 9h6v6H9z"],
  look: ["M12 12m-3 0a3 3 0 1 0 6 0a3 3 0 1 0-6 0", "M2 12c3-5 6-7 10-7s7 2 10 7c-3 5-6 7-10 7s-7-2-10-7z"],
  replay: ["M19 12a7 7 0 1 1-2.5-5.3", "M19 3v4.5h-4.5"],
  more: ["!M3.5 10h4v4h-4z", "!M10 10h4v4h-4z", "!M16.5 10h4v4h-4z"],
  close: ["M6 6l12 12", "M18 6L6 18"],
  box: ["M4 4h16v16H4z"],
  sun: ["M12 12m-4 0a4 4 0 1 0 8 0a4 4 0 1 0-8 0", "M12 2v3", "M12 19v3", "M2 12h3", "M19 12h3", "M5 5l2 2", "M17 17l2 2", "M19 5l-2 2", "M7 17l-2 2"],
  send: ["M12 4h8v8", "M20 4l-9 9", "M14 20H4V10"],
  print: ["M7 9V3h10v6", "M3 9h18v8h-4", "M7 17H3V9", "M7 14h10v7H7z"],
  stick: ["M7 9h10v11a1 1 0 0 1-1 1H8a1 1 0 0 1-1-1z", "M9 9V3h6v6", "M11 5.5h2"],
  cube: ["M12 2l9 5v10l-9 5-9-5V7z", "M3 7l9 5 9-5", "M12 12v10"],
  save: ["M12 3v12", "M7 10l5 5 5-5", "M4 20h16"],
  open: ["M12 16V4", "M7 9l5-5 5 5", "M4 20h16"],
  apart: ["M3 4h7v16H3z", "M14 4h7v16h-7z", "M10 12h4"],
  through: ["M4 4h16v16H4z", "M8 12h8", "M8 9v6", "M16 10.5v3"],
  section: ["M12 2v20", "M9 6H4v12h5", "!M15 6h5v12h-5z"],
  measure: ["M3 8h18v8H3z", "M7 8v3", "M11 8v4", "M15 8v3"],
  twin: ["M3 4h7v16H3z", "M14 4h7v16h-7z", "!M3 16h3v4H3z", "!M18 16h3v4h-3z"],
  list: ["M9 6h12", "M9 12h12", "M9 18h12", "M3 6h2", "M3 12h2", "M3 18h2"],
};

/**
 * @param {string} name
 * @returns {SVGSVGElement} Hidden from readers: it always stands beside its words.
 */
export function glyph(name) {
  const out = s("svg", { class: "glyph", viewBox: "0 0 24 24", "aria-hidden": "true", focusable: "false" });
  for (const stroke of STROKES[name] ?? []) {
    const filled = stroke.startsWith("!");
    out.append(s("path", { d: filled ? stroke.slice(1) : stroke, class: filled ? "filled" : null }));
  }
  return out;
}
