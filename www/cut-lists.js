// The part list, to be sorted, and what to buy.
import { fractions, h } from "./dom.js";
import { print, printMass, printSides } from "./lengths.js";
import { asCut, mark } from "./parts.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Cutting} Cutting */
/** @typedef {import("./types").Part} Part */
/** @typedef {import("./types").Plan} Plan */
/** @typedef {"mark" | "name" | "material" | "length" | "width" | "sheet"} Column */
/** @typedef {{ column: Column, down: boolean }} Order */
/** @typedef {{ part: Part, mark: string, n: number, sheet: number }} Row */

const GRAIN = { length: "grain along", width: "grain across", none: "no grain" };

/** @type {[Column, string][]} */
const COLUMNS = [
  ["mark", "Mark"],
  ["name", "Part"],
  ["length", "Length"],
  ["width", "Width"],
  ["material", "Material"],
  ["sheet", "Sheet"],
];

/** @type {Record<Column, (a: Row, b: Row) => number>} */
const BY = {
  mark: (a, b) => a.n - b.n,
  name: (a, b) => a.part.name.localeCompare(b.part.name, "en"),
  length: (a, b) => asCut(a.part)[0] - asCut(b.part)[0],
  width: (a, b) => asCut(a.part)[1] - asCut(b.part)[1],
  material: (a, b) => a.part.material_name.localeCompare(b.part.material_name, "en"),
  sheet: (a, b) => a.sheet - b.sheet,
};

/**
 * @param {App} app
 * @param {Plan} plan
 * @param {Cutting | null} cutting
 * @param {Order} order
 * @param {(order: Order) => void} sort
 * @param {Set<string>} made
 * @param {string[]} spoiled
 */
export function partList(app, plan, cutting, order, sort, made, spoiled) {
  /** @type {Row[]} */
  const rows = plan.parts.map((part, n) => {
    const sheet = cutting?.sheets.find((one) => one.parts.some((placed) => placed.part === part.id));
    return { part, mark: mark(n), n, sheet: sheet?.n ?? 0 };
  });
  rows.sort((a, b) => (BY[order.column](a, b) || a.n - b.n) * (order.down ? -1 : 1));
  const head = (/** @type {[Column, string]} */ [column, words]) => {
    const on = order.column === column;
    return h(
      "th",
      { scope: "col", class: column === "length" || column === "width" ? "number" : column === "material" ? "extra" : null, "aria-sort": on ? (order.down ? "descending" : "ascending") : null },
      h("button", { type: "button", class: "plain", onclick: () => sort({ column, down: on && !order.down }) }, words, on ? (order.down ? " ↓" : " ↑") : ""),
    );
  };
  const state = (/** @type {Row} */ { part, sheet }) => {
    if (part.kind !== "panel") return "bought";
    if (!made.has(part.id)) return sheet > 0 ? `${sheet}` : cutting?.unplaced.some((one) => one.part === part.id) ? "no place" : "cut";
    const box = h("input", { type: "checkbox", checked: spoiled.includes(part.id), onchange: () => app.tickSpoiled(part.id, box.checked) });
    return h("label", { class: "tick" }, box, h("span", {}, "spoiled"));
  };
  return h(
    "table",
    { class: "parts" },
    h("caption", {}, "Parts"),
    h("thead", {}, h("tr", {}, ...COLUMNS.map(head))),
    h(
      "tbody",
      {},
      ...rows.map((row) =>
        h(
          "tr",
          {},
          h("td", { class: "mark" }, row.mark),
          h("th", { scope: "row" }, row.part.name),
          h("td", { class: "number" }, fractions(print(asCut(row.part)[0], plan.unit))),
          h("td", { class: "number" }, fractions(print(asCut(row.part)[1], plan.unit))),
          h("td", { class: "extra", title: printSides(row.part, plan.unit) }, fractions(row.part.material_name), row.part.kind === "panel" ? `, ${GRAIN[row.part.grain]}` : "", `, ${printMass(row.part.mass_g, plan.unit)}`),
          h("td", {}, state(row)),
        ),
      ),
    ),
  );
}

/** @param {number} thousandths */
const money = (thousandths) => (thousandths / 1000).toFixed(2);

/** @param {Cutting} cutting */
export function shoppingList(cutting) {
  const known = cutting.shopping.filter((item) => item.cost !== undefined);
  const total = known.reduce((sum, item) => sum + (item.cost ?? 0), 0);
  const missing = cutting.shopping.filter((item) => item.cost === undefined && item.buy > 0).length;
  return h(
    "table",
    { class: "parts shopping" },
    h("caption", {}, "To buy"),
    h("thead", {}, h("tr", {}, h("th", { scope: "col" }, "What"), h("th", { scope: "col", class: "number" }, "Takes"), h("th", { scope: "col", class: "number roomy" }, "Spare"), h("th", { scope: "col", class: "number roomy" }, "There"), h("th", { scope: "col", class: "number" }, "Buy"), h("th", { scope: "col", class: "number" }, "Cost"))),
    h(
      "tbody",
      {},
      ...cutting.shopping.map((item) =>
        h(
          "tr",
          {},
          h("th", { scope: "row" }, fractions(item.name), item.why ? h("span", { class: "quiet why" }, item.why) : null),
          h("td", { class: "number" }, `${item.need}`),
          h("td", { class: "number roomy" }, item.spare > 0 ? `${item.spare}` : ""),
          h("td", { class: "number roomy" }, item.on_hand > 0 ? `${item.on_hand}` : ""),
          h("td", { class: "number" }, h("strong", {}, `${item.buy}`), ` ${item.buy === 1 ? item.unit.replace(/s$/, "") : item.unit}`),
          h("td", { class: "number" }, item.cost !== undefined ? money(item.cost) : ""),
        ),
      ),
    ),
    known.length > 0
      ? h("tfoot", {}, h("tr", {}, h("th", { scope: "row" }, missing > 0 ? `Together, ${missing} without a price` : "Together"), h("td", {}), h("td", { class: "roomy" }), h("td", { class: "roomy" }), h("td", {}), h("td", { class: "number" }, h("strong", {}, money(total)))))
      : null,
  );
}
