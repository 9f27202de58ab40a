// Cut: the list to take to the saw.
import { checked, checkedAt } from "../accepting.js";
import { download, fractions, h } from "../dom.js";
import { emptied } from "../empty.js";
import { glyph } from "../glyphs.js";
import { print, printArea, printMass, printSides } from "../lengths.js";
import { countScrews, cutRows } from "../parts.js";

/** @typedef {import("../parts.js").Row} Row */
/** @typedef {import("../types").Plan} Plan */

const GRAIN = { length: "grain along", width: "grain across", none: "no grain" };

/**
 * @param {Plan} plan
 * @param {Row[]} rows
 */
function body(plan, rows) {
  const first = rows[0]?.part;
  const panel = first?.kind === "panel";
  const area = rows.reduce((sum, row) => sum + (row.count * row.part.length * row.part.width) / 1_000_000, 0);
  const count = rows.reduce((sum, row) => sum + row.count, 0);
  return h(
    "tbody",
    {},
    h(
      "tr",
      { class: "group" },
      h(
        "th",
        { scope: "rowgroup", colspan: 5 },
        fractions(first?.material_name || first?.material || ""),
        " ",
        h("span", { class: "quiet" }, panel ? `${count} pieces, ${printArea(area, plan.unit)} net` : `${count} pieces, bought`),
      ),
    ),
    ...rows.map((row) =>
      h(
        "tr",
        {},
        h("td", { class: "mark" }, row.label),
        h("th", { scope: "row" }, row.names.join(", ")),
        h("td", { class: "number count" }, `${row.count}`),
        h("td", { class: "number" }, fractions(printSides(row.part, plan.unit))),
        h("td", { class: "extra" }, panel ? `${GRAIN[row.part.grain]}, ` : "", printMass(row.part.mass_g, plan.unit)),
      ),
    ),
  );
}

/** @param {Plan} plan */
function table(plan) {
  const rows = cutRows(plan.parts);
  /** @type {Map<string, Row[]>} */
  const groups = new Map();
  for (const row of rows) {
    const key = `${row.part.kind} ${row.part.material}`;
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return h(
    "table",
    { class: "parts" },
    h("caption", {}, "Parts"),
    h(
      "thead",
      {},
      h(
        "tr",
        {},
        h("th", { scope: "col" }, "Mark"),
        h("th", { scope: "col" }, "Part"),
        h("th", { scope: "col", class: "number" }, "Count"),
        h("th", { scope: "col", class: "number" }, "Length × width × thickness"),
        h("th", { scope: "col", class: "extra" }, "Grain, mass of one"),
      ),
    ),
    ...[...groups.values()].map((group) => body(plan, group)),
  );
}

/** @param {Plan} plan */
function screws(plan) {
  const all = countScrews(plan.joints.flatMap((joint) => joint.fasteners));
  return h(
    "section",
    { "aria-labelledby": "screw-title" },
    h("h2", { id: "screw-title" }, "Screws"),
    h(
      "ul",
      { class: "plain-list" },
      ...all.map((screw) =>
        h(
          "li",
          {},
          glyph(screw.kind.startsWith("pan") ? "screw-pan" : "screw-flat"),
          h("span", {}, fractions(`${screw.kind}, #${screw.gauge} × ${print(screw.length, plan.unit)}`)),
          h("strong", { class: "size" }, `× ${screw.count}`),
        ),
      ),
    ),
  );
}

/** @type {import("../types").Stage} */
export const stage = {
  mount(root, app) {
    /** @type {Plan | null} */
    let shown = null;
    const list = h("div", {});
    const said = h("div", {});
    /** @type {unknown} */
    let told = null;
    const empty = emptied("No part list yet. ", "Working out the parts.");
    const save = (/** @type {string} */ kind, /** @type {string} */ type) => async () => {
      const text = await app.exportFile(kind);
      if (text !== undefined) download(kind, text, type);
    };
    const files = h(
      "div",
      { class: "buttons" },
      h("button", { type: "button", onclick: save("parts.csv", "text/csv") }, "Save part list"),
      h("button", { type: "button", onclick: save("steps.txt", "text/plain") }, "Save steps as text"),
      h("button", { type: "button", onclick: save("plan.json", "application/json") }, "Save plan file"),
    );
    root.append(
      h("h1", {}, "Cut"),
      h(
        "p",
        { class: "remark", "data-severity": "caution" },
        glyph("caution"),
        h("span", {}, "Measure each sheet before you cut. Wear eye and ear protection, keep guard and riving knife on, use a push stick, catch the dust. Common practice, no source: the saw's manual and local rules come first."),
      ),
      h("p", {}, "The layout on sheets is not worked out yet. Areas are net, without kerfs and waste."),
      files,
      empty.element,
      said,
      list,
    );
    return {
      update(state) {
        files.hidden = state.plan === null;
        empty.update(state);
        if (told !== state.outcome) {
          told = state.outcome;
          said.replaceChildren(checked(app, checkedAt(state.outcome, "cut"), "What the checks say") ?? "");
        }
        if (shown === state.plan) return;
        shown = state.plan;
        list.replaceChildren(...(shown ? [table(shown), screws(shown)] : []));
      },
    };
  },
};
