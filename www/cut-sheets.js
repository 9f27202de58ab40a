// The sheets to scale, as they lie before a person: the near edge below.
import { fractions, h, keep, s } from "./dom.js";
import { print } from "./lengths.js";
import { partName } from "./plan.js";
import { CORE, w } from "./words.js";

/** @typedef {import("./types").Cutting} Cutting */
/** @typedef {import("./types").Plan} Plan */
/** @typedef {import("./types").SheetPlan} SheetPlan */

/** Letters are about 0.6 as wide as they are high. */
const LETTER = 0.6;

/**
 * Lines of text in the middle of a rectangle, along its longer side, as large as it allows.
 * @param {[number, number, number, number]} room x, y, width, height in mm
 * @param {string[]} lines
 * @param {number} most letters' height
 */
function words([x, y, wide, high], lines, most) {
  const upright = high > wide;
  const [long, short] = upright ? [high, wide] : [wide, high];
  const letters = Math.max(...lines.map((line) => line.length), 1);
  const size = Math.min((long * 0.92) / (letters * LETTER), (short * 0.8) / lines.length / 1.15, most);
  if (size < most / 6) return null;
  const [cx, cy] = [x + wide / 2, y + high / 2];
  return s(
    "g",
    { transform: upright ? `rotate(-90 ${cx} ${cy})` : null, "font-size": size, lang: CORE },
    ...lines.map((line, n) => s("text", { x: cx, y: cy + (n - (lines.length - 1) / 2) * size * 1.15, "dominant-baseline": "central" }, line)),
  );
}

/**
 * @param {Plan} plan
 * @param {SheetPlan} sheet
 */
function drawing(plan, sheet) {
  const [length, width] = [sheet.size[0] / 1000, sheet.size[1] / 1000];
  const air = Math.max(length, width) * 0.045;
  const letters = air * 0.62;
  /** @type {(at: [number, number], size: [number, number]) => [number, number, number, number]} */
  const room = (at, size) => [at[0] / 1000, width - (at[1] + size[1]) / 1000, size[0] / 1000, size[1] / 1000];
  const box = (/** @type {string} */ kind, /** @type {[number, number, number, number]} */ [x, y, w, t], part = "") => s("rect", { class: kind, "data-part": part || null, x, y, width: w, height: t });
  const names = sheet.parts.map(({ part, mark }) => `${mark} ${partName(plan, part)}`);
  return s(
    "svg",
    {
      class: "sheet-plan",
      viewBox: `${-air} ${-air} ${length + air * 1.4} ${width + air * 1.4}`,
      role: "img",
      "aria-label": `${w.cut.sheet(sheet.n)}: ${names.join(", ")}`,
    },
    box("sheet-edge", [0, 0, length, width]),
    s("text", { x: length / 2, y: -air * 0.35, "font-size": letters }, print(sheet.size[0], plan.unit)),
    s("text", { x: -air * 0.35, y: width / 2, "font-size": letters, transform: `rotate(-90 ${-air * 0.35} ${width / 2})` }, print(sheet.size[1], plan.unit)),
    ...sheet.parts.flatMap((part, n) => {
      const at = room(part.at, part.size);
      const sizes = `${print(part.size[0], plan.unit, true)} × ${print(part.size[1], plan.unit)}`;
      return [box("sheet-part", at, part.part), words(at, [names[n] ?? "", sizes], letters)];
    }),
    ...sheet.offcuts.flatMap((offcut) => {
      const at = room(offcut.at, offcut.size);
      const sizes = `${print(offcut.size[0], plan.unit, true)} × ${print(offcut.size[1], plan.unit)}`;
      return [box("sheet-offcut", at), words(at, [offcut.keep_for ? `${offcut.id}: ${offcut.keep_for}` : offcut.id, sizes], letters * 0.8)];
    }),
  );
}

/**
 * One sheet, which can be enlarged.
 * @param {number} n
 */
function figure(n) {
  const frame = h("div", { class: "sheet-frame", tabindex: 0, role: "region", "aria-label": w.cut.scrolls(n) });
  const closer = h("button", { type: "button", onclick: () => (closer.textContent = frame.classList.toggle("large") ? w.cut.smaller : w.cut.larger) }, w.cut.larger);
  const said = h("span", {});
  const element = h("figure", { class: "sheet-figure" }, h("figcaption", {}, h("strong", {}, w.cut.sheet(n)), said, closer), frame);
  let shown = "";
  return {
    element,
    /**
     * @param {Plan} plan
     * @param {Cutting} cutting
     * @param {SheetPlan} sheet
     * @param {Set<string>} made parts that have their size
     */
    update(plan, cutting, sheet, made) {
      const at = cutting.job.stock.findIndex((one) => one.id === sheet.stock);
      const stock = cutting.stock[at];
      const name = stock?.material_name ?? cutting.job.stock[at]?.material ?? "";
      const now = JSON.stringify([sheet, stock, name, plan.unit, sheet.parts.map(({ part }) => partName(plan, part))]);
      if (shown !== now) {
        shown = now;
        said.replaceChildren(
          h("span", { lang: CORE }, fractions(`${name}, ${print(sheet.size[0], plan.unit, true)} × ${print(sheet.size[1], plan.unit)}`)),
          stock?.assumed ? h("span", { class: "quiet" }, w.cut.assumed) : "",
          stock?.scrap ? h("span", { class: "quiet" }, w.cut.aScrap) : "",
        );
        frame.replaceChildren(drawing(plan, sheet));
      }
      for (const rect of frame.querySelectorAll("rect[data-part]")) rect.classList.toggle("made", made.has(rect.getAttribute("data-part") ?? ""));
    },
  };
}

/** All sheets. Each stays as it is looked at while its layout does. */
export function sheetList() {
  const element = h("div", {});
  /** @type {Map<number, ReturnType<typeof figure>>} */
  const figures = new Map();
  return {
    element,
    /**
     * @param {Plan} plan
     * @param {Cutting} cutting
     * @param {Set<string>} made
     */
    update(plan, cutting, made) {
      for (const sheet of cutting.sheets) {
        const one = figures.get(sheet.n) ?? figure(sheet.n);
        figures.set(sheet.n, one);
        one.update(plan, cutting, sheet, made);
      }
      keep(element, cutting.sheets.flatMap(({ n }) => {
        const one = figures.get(n);
        return one ? [[`${n}`, () => one.element]] : [];
      }));
    },
  };
}
