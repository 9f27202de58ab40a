// Two variants side by side: which parts differ, how much sheet they take, what they cost, what they weigh.
import { fractions, h } from "./dom.js";
import { printArea, printMass } from "./lengths.js";
import { costOf, money } from "./money.js";
import { asCut } from "./parts.js";
import { w } from "./words.js";

/** @typedef {import("./types").Draft} Draft */
/** @typedef {import("./types").Part} Part */
/** A variant; how it is cut is not known while it is planned, and there is nothing to know without a plan.
 * @typedef {{ name: string, draft: Draft, cutting: import("./types").Cutting | null | undefined }} Variant */

const cut = (/** @type {Part} */ part) => `${asCut(part).join("×")}×${part.thickness} ${part.material}`;
const grams = (/** @type {Part[]} */ parts) => parts.reduce((sum, part) => sum + part.mass_g, 0);

/** Square metres by material: as cut, without kerf and waste.
 * @param {Part[]} parts */
function areas(parts) {
  /** @type {Map<string, number>} */
  const sums = new Map();
  for (const part of parts.filter((one) => one.kind === "panel")) {
    const [length, width] = asCut(part);
    sums.set(part.material_name, (sums.get(part.material_name) ?? 0) + (length * width) / 1e12);
  }
  return sums;
}

/**
 * What follows from how a variant is cut.
 * @param {Variant} variant
 * @param {(cutting: import("./types").Cutting) => string} say
 */
const whenCut = ({ cutting }, say) => (cutting ? say(cutting) : cutting === null ? w.compare.noPlan : w.compare.working);

/** What is to be bought, with what it leaves out. @param {import("./types").Cutting} cutting */
function cost({ shopping }) {
  const { total, priced, missing } = costOf(shopping);
  if (!priced) return missing > 0 ? w.compare.noPrice : w.compare.nothing;
  return missing > 0 ? w.compare.partly(money(total), missing) : money(total);
}

/**
 * @param {Variant} one
 * @param {Variant} two
 * @param {import("./types").Notation} notation
 */
export function compare(one, two, notation) {
  const variants = [one, two];
  const row = (/** @type {string} */ label, /** @type {(draft: Draft, variant: Variant) => string} */ say) => {
    const said = variants.map((variant) => say(variant.draft, variant));
    return h(
      "tr",
      { class: said[0] === said[1] ? null : "differs" },
      h("th", { scope: "row" }, label),
      ...said.map((words) => h("td", { class: "number" }, fractions(words))),
    );
  };
  const size = (/** @type {string} */ id) => (/** @type {Draft} */ draft) => draft.sizes.find((r) => r.id === id)?.text ?? "–";
  const materials = [...new Set(variants.flatMap((variant) => [...areas(variant.draft.parts).keys()]))];
  const before = new Map(one.draft.parts.map((part) => [part.id, part]));
  const after = new Map(two.draft.parts.map((part) => [part.id, part]));
  const gone = [...before.values()].filter((part) => !after.has(part.id)).map((part) => w.compare.onlyIn(part.name, one.name));
  const fresh = [...after.values()].filter((part) => !before.has(part.id)).map((part) => w.compare.onlyIn(part.name, two.name));
  const changed = [...after.values()].filter((part) => {
    const old = before.get(part.id);
    return old !== undefined && cut(old) !== cut(part);
  });
  const words = [...changed.map((part) => part.name), ...gone, ...fresh];
  return h(
    "section",
    { class: "compare", "aria-label": w.compare.label },
    h(
      "table",
      { class: "sizes" },
      h("caption", {}, w.compare.title),
      h("thead", {}, h("tr", {}, h("th", { scope: "col" }, w.compare.what), ...variants.map((v) => h("th", { scope: "col", class: "number" }, v.name)))),
      h(
        "tbody",
        {},
        row(w.compare.width, size("carcass-width")),
        row(w.compare.height, size("carcass-height")),
        row(w.compare.depth, size("carcass-depth")),
        row(w.compare.panels, (draft) => String(draft.parts.filter((part) => part.kind === "panel").length)),
        row(w.compare.bought, (draft) => String(draft.parts.filter((part) => part.kind === "hardware").length)),
        ...materials.map((name) => row(w.compare.area(name), (draft) => printArea(areas(draft.parts).get(name) ?? 0, notation))),
        row(w.compare.sheets, (_, variant) => whenCut(variant, (cutting) => `${cutting.sheets.length}`)),
        row(w.compare.cost, (_, variant) => whenCut(variant, cost)),
        row(w.compare.mass, (draft) => printMass(grams(draft.parts), notation)),
      ),
    ),
    h("p", {}, words.length === 0 ? w.compare.same : w.compare.differ(words)),
  );
}
