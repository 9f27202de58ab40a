// The part list, to be sorted, and what to buy.
import { madeBy } from "./cut-steps.js";
import { fractions, h, keep } from "./dom.js";
import { print, printMass, printSides } from "./lengths.js";
import { costOf, money } from "./money.js";
import { asCut, mark } from "./parts.js";
import { CORE, w } from "./words.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Cutting} Cutting */
/** @typedef {import("./types").Part} Part */
/** @typedef {import("./types").State} State */
/** @typedef {"mark" | "name" | "material" | "length" | "width" | "sheet"} Column */
/** @typedef {{ part: Part, mark: string, n: number, sheet: number }} Row */

const GRAIN = w.cut.grain;

/** What stands for a part that has its size. */
const MADE = w.cut.made;

/** @type {[Column, string][]} */
const COLUMNS = [
  ["mark", w.cut.columns.mark],
  ["name", w.cut.columns.name],
  ["length", w.cut.columns.length],
  ["width", w.cut.columns.width],
  ["material", w.cut.columns.material],
  ["sheet", w.cut.columns.sheet],
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
 * The parts, to be sorted by any column. A row stays in place while nothing in it changes.
 * @param {App} app
 */
export function partList(app) {
  /** @type {{ column: Column, down: boolean }} */
  let order = { column: "mark", down: false };
  const heads = COLUMNS.map(([column, words]) => {
    const arrow = h("span", {});
    const side = column === "length" || column === "width" ? "number" : column === "material" ? "extra" : null;
    const head = h("th", { scope: "col", class: side }, h("button", { type: "button", class: "plain", onclick: () => sort(column) }, words, arrow));
    return { column, head, arrow };
  });
  const body = h("tbody", {});
  const element = h("table", { class: "parts" }, h("caption", {}, w.cut.parts), h("thead", {}, h("tr", {}, ...heads.map(({ head }) => head))), body);

  /** @param {Column} column */
  function sort(column) {
    order = { column, down: column === order.column && !order.down };
    update(app.state());
  }

  /**
   * @param {Row} row
   * @param {import("./types").Notation} unit
   * @param {string} state
   */
  function line({ part, mark: letters }, unit, state) {
    const [length, width] = asCut(part);
    const spoiled = () => {
      const box = h("input", { type: "checkbox", onchange: () => app.tickSpoiled(part.id, box.checked) });
      return h("label", { class: "tick" }, box, h("span", {}, w.cut.spoiled));
    };
    return h(
      "tr",
      { "data-part": part.id },
      h("td", { class: "mark" }, letters),
      h("th", { scope: "row" }, part.name),
      h("td", { class: "number" }, fractions(print(length, unit))),
      h("td", { class: "number" }, fractions(print(width, unit))),
      h("td", { class: "extra", title: printSides(part, unit) }, h("span", { lang: CORE }, fractions(part.material_name)), part.kind === "panel" ? `, ${GRAIN[part.grain]}` : "", `, ${printMass(part.mass_g, unit)}`),
      h("td", {}, state === MADE ? spoiled() : state),
    );
  }

  /** @param {State} state */
  function update({ plan, cutting, ticks }) {
    if (!plan) return;
    for (const { column, head, arrow } of heads) {
      const on = order.column === column;
      if (on) head.setAttribute("aria-sort", order.down ? "descending" : "ascending");
      else head.removeAttribute("aria-sort");
      arrow.textContent = on ? (order.down ? " ↓" : " ↑") : "";
    }
    const made = cutting ? madeBy(cutting, ticks.done) : new Set();
    /** @type {Row[]} */
    const rows = plan.parts.map((part, n) => {
      const sheet = cutting?.sheets.find((one) => one.parts.some((placed) => placed.part === part.id));
      return { part, mark: mark(n), n, sheet: sheet?.n ?? 0 };
    });
    rows.sort((a, b) => (BY[order.column](a, b) || a.n - b.n) * (order.down ? -1 : 1));
    const where = (/** @type {Row} */ { part, sheet }) => {
      if (part.kind !== "panel") return w.cut.bought;
      if (made.has(part.id)) return MADE;
      return sheet > 0 ? `${sheet}` : cutting?.unplaced.some((one) => one.part === part.id) ? w.cut.noPlace : w.cut.toCut;
    };
    keep(body, rows.map((row) => [JSON.stringify([row.mark, row.part, plan.unit, where(row)]), () => line(row, plan.unit, where(row))]));
    for (const row of body.children) {
      const box = row.querySelector("input");
      if (box && row instanceof HTMLElement) box.checked = ticks.spoiled.includes(row.dataset.part ?? "");
    }
  }

  return { element, update };
}

/** @param {Cutting} cutting */
export function shoppingList(cutting) {
  const { total, priced, missing } = costOf(cutting.shopping);
  return h(
    "table",
    { class: "parts shopping" },
    h("caption", {}, w.cut.toBuy),
    h("thead", {}, h("tr", {}, h("th", { scope: "col" }, w.cut.buyHeads.what), h("th", { scope: "col", class: "number" }, w.cut.buyHeads.takes), h("th", { scope: "col", class: "number roomy" }, w.cut.buyHeads.spare), h("th", { scope: "col", class: "number roomy" }, w.cut.buyHeads.hand), h("th", { scope: "col", class: "number" }, w.cut.buyHeads.buy), priced ? h("th", { scope: "col", class: "number" }, w.cut.buyHeads.cost) : null)),
    h(
      "tbody",
      {},
      ...cutting.shopping.map((item) =>
        h(
          "tr",
          {},
          h("th", { scope: "row", lang: CORE }, fractions(item.name), item.why ? h("span", { class: "quiet reason" }, fractions(item.why)) : null),
          h("td", { class: "number" }, `${item.need}`),
          h("td", { class: "number roomy" }, item.spare > 0 ? `${item.spare}` : ""),
          h("td", { class: "number roomy" }, item.on_hand > 0 ? `${item.on_hand}` : ""),
          h("td", { class: "number" }, h("strong", {}, `${item.buy}`), " ", h("span", { lang: CORE }, item.buy === 1 ? item.unit.replace(/s$/, "") : item.unit)),
          priced ? h("td", { class: "number" }, item.cost !== undefined ? money(item.cost) : "") : null,
        ),
      ),
    ),
    priced
      ? h("tfoot", {}, h("tr", {}, h("th", { scope: "row" }, missing > 0 ? w.cut.togetherBut(missing) : w.cut.together), h("td", {}), h("td", { class: "roomy" }), h("td", { class: "roomy" }), h("td", {}), h("td", { class: "number" }, h("strong", {}, money(total)))))
      : null,
  );
}
