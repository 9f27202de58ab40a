// Printing only. Reading what a maker types is the core's work, so that there is one reader.

/**
 * @param {number} a
 * @param {number} b
 * @returns {number}
 */
function commonDivisor(a, b) {
  return b === 0 ? a : commonDivisor(b, a % b);
}

/**
 * Nearest whole count of `unit / parts`, halves up; exact for whole micrometres.
 * @param {number} um not negative
 * @param {number} unit micrometres
 * @param {number} parts
 */
function nearest(um, unit, parts) {
  return Math.floor((2 * um * parts + unit) / (2 * unit));
}

/**
 * A length in the maker's notation with its unit, to the nearest step, halves away from zero.
 * @param {number} um whole micrometres
 * @param {import("./types").Notation} notation
 * @param {boolean} [bare] leave the unit off, where one unit stands for a whole row
 */
export function print(um, notation, bare = false) {
  const size = Math.abs(um);
  const inch = /^inch-(\d+)$/.exec(notation);
  let text;
  let zero;
  if (inch) {
    const parts = Number(inch[1]);
    const steps = nearest(size, 25_400, parts);
    const whole = Math.floor(steps / parts);
    const rest = steps % parts;
    const by = commonDivisor(parts, rest);
    const fraction = rest === 0 ? "" : `${rest / by}/${parts / by}`;
    text = fraction === "" ? `${whole}` : whole === 0 ? fraction : `${whole} ${fraction}`;
    zero = steps === 0;
  } else {
    const parts = notation === "mm-half" ? 2 : 10;
    const steps = nearest(size, 1000, parts);
    const tenths = (steps % parts) * (10 / parts);
    text = tenths === 0 ? `${Math.floor(steps / parts)}` : `${Math.floor(steps / parts)}.${tenths}`;
    zero = steps === 0;
  }
  return `${um < 0 && !zero ? "-" : ""}${text}${bare ? "" : ` ${unitOf(notation)}`}`;
}

/** @param {import("./types").Notation} notation */
function unitOf(notation) {
  return notation.startsWith("inch") ? "in" : "mm";
}

/**
 * The finest notation of the same unit: for what is measured and not cut by the tape, as drills and sheets.
 * @param {import("./types").Notation} notation
 * @returns {import("./types").Notation}
 */
export const fineOf = (notation) => (notation.startsWith("inch") ? "inch-64" : "mm-tenth");

/**
 * Length × width × thickness with the unit once. The thickness is what the sheet measures, not what it
 * is called, so it is printed finer than what is cut by the tape.
 * @param {import("./types").Part} part
 * @param {import("./types").Notation} notation
 */
export function printSides({ length, width, thickness }, notation) {
  return `${print(length, notation, true)} × ${print(width, notation, true)} × ${print(thickness, fineOf(notation))}`;
}

/**
 * @param {number} grams
 * @param {import("./types").Notation} notation
 * @returns {string} Pounds beside inches, kilograms beside millimetres: whole above ten, else tenths.
 */
export function printMass(grams, notation) {
  // The pound is 453.59237 g by the international yard and pound agreement of 1959.
  const [size, unit] = notation.startsWith("inch") ? [grams / 453.592_37, "lb"] : [grams / 1000, "kg"];
  return `${size < 10 ? size.toFixed(1) : size.toFixed(0)} ${unit}`;
}

/**
 * @param {number} squareMetres
 * @param {import("./types").Notation} notation
 */
export function printArea(squareMetres, notation) {
  // The foot is 0.3048 m by the same agreement.
  return notation.startsWith("inch") ? `${(squareMetres / 0.092_903_04).toFixed(1)} sq ft` : `${squareMetres.toFixed(2)} m²`;
}
