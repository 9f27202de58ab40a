// Equal parts counted together, and screws counted by kind: what is cut and what is fetched.

/** @typedef {import("./types").Part} Part */
/** @typedef {import("./types").Plan} Plan */
/** @typedef {import("./types").Fastener} Fastener */
/** @typedef {{ label: string, names: string[], count: number, part: Part }} Row */
/** @typedef {{ kind: string, gauge: number, length: number, pilot: number, count: number }} Screws */

/**
 * What is chalked on the part of that place in the plan, as the core marks it.
 * @param {number} i
 * @returns {string} A … Z, AA, AB …
 */
export function mark(i) {
  return i < 26 ? String.fromCharCode(65 + i) : mark(Math.floor(i / 26) - 1) + mark(i % 26);
}

/**
 * Length and width as it is cut: without its banding, and with the air it has in grooves.
 * @param {Part} part
 * @returns {[number, number]}
 */
export function asCut(part) {
  return part.making?.cut ?? [part.length, part.width];
}

/**
 * Parts that are cut alike share a row, sheet by sheet in the order of the cut list, bought parts last.
 * Notches may still differ: mirror parts are named one by one.
 * @param {Part[]} parts
 * @returns {Row[]}
 */
export function cutRows(parts) {
  const sheets = [...new Set(parts.map((part) => part.material))];
  const place = (/** @type {Part} */ part) => sheets.indexOf(part.material) + (part.kind === "panel" ? 0 : sheets.length);
  /** @type {Map<string, Row>} */
  const rows = new Map();
  for (const part of [...parts].sort((a, b) => place(a) - place(b))) {
    const key = [part.kind, part.material, ...asCut(part), part.thickness, part.grain].join("|");
    const row = rows.get(key);
    const label = mark(parts.indexOf(part));
    if (row) {
      row.count += 1;
      row.label += `, ${label}`;
      if (!row.names.includes(part.name)) row.names.push(part.name);
    } else {
      rows.set(key, { label, names: [part.name], count: 1, part });
    }
  }
  return [...rows.values()];
}

/**
 * Parts of the same sizes that are not the same: their cuts lie elsewhere, as in a left and a right side.
 * @param {Plan} plan
 * @param {Part} part
 */
export function lookalikes(plan, part) {
  const shape = (/** @type {Part} */ { boxes }) => {
    const low = [0, 1, 2].map((axis) => Math.min(...boxes.map((box) => box[axis] ?? 0)));
    return JSON.stringify(boxes.map((box) => box.map((at, i) => at - (low[i % 3] ?? 0))).sort());
  };
  const sizes = (/** @type {Part} */ { kind, material, length, width, thickness }) => [kind, material, length, width, thickness].join("|");
  const own = shape(part);
  return plan.parts.filter((other) => other.id !== part.id && part.boxes.length > 1 && sizes(other) === sizes(part) && shape(other) !== own);
}

/**
 * @param {Plan} plan
 * @returns {Map<string, Fastener>}
 */
export function fastenersById(plan) {
  return new Map(plan.joints.flatMap((joint) => joint.fasteners.map((fastener) => [fastener.id, fastener])));
}

/**
 * @param {Fastener[]} fasteners
 * @returns {Screws[]} one entry for each kind and size, in the order they come
 */
export function countScrews(fasteners) {
  /** @type {Map<string, Screws>} */
  const kinds = new Map();
  for (const { kind, gauge, length, pilot } of fasteners) {
    const key = `${kind}|${gauge}|${length}|${pilot}`;
    const seen = kinds.get(key);
    if (seen) seen.count += 1;
    else kinds.set(key, { kind, gauge, length, pilot, count: 1 });
  }
  return [...kinds.values()];
}
