// What there is to cut from, and the saw: the part of the scenario that Cut asks for.
import { h } from "./dom.js";
import { leavingOut, relist } from "./editing.js";
import { adding, choice, field, remover } from "./scenario-form.js";
import { listOf, materialsOf, typed, valueAt } from "./scenario.js";
import { w } from "./words.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Path} Path */
/** @typedef {import("./scenario-form.js").Field} Field */

/**
 * @param {App} app
 * @returns {{ element: HTMLElement, fields: Field[] }}
 */
export function stockForm(app) {
  /** @type {Field[]} */
  const fields = [];
  const { scenario, plan } = app.state();
  const add = adding(fields);
  const listed = materialsOf(scenario);
  const used = plan?.cutting?.job.stock.map((one) => one.material) ?? [];
  /** @type {[string, string][]} */
  const materials = listed.length > 0 ? listed : [...new Set(used)].map((id) => [id, id]);
  /** @type {["shop", string]} */
  const list = ["shop", "stock"];
  const length = (/** @type {Path} */ path, /** @type {string} */ label, placeholder = w.stock.usual) => add(field(app, { path, label, type: "length", placeholder }));
  const number = (/** @type {Path} */ path, /** @type {string} */ label, placeholder = "") => add(field(app, { path, label, type: "number", placeholder }));
  const stock = listOf(valueAt(scenario, list));
  const rows = stock.map((one, n) => {
    const at = [...list, n];
    const scrap = valueAt(one, ["scrap"]) === true;
    return h(
      "div",
      { class: "row" },
      add(field(app, { path: [...at, "id"], label: scrap ? w.stock.scrap : w.stock.sheet, type: "text", placeholder: w.stock.name })),
      add(choice(app, { path: [...at, "material"], label: w.stock.material, options: materials })),
      length([...at, "length"], w.stock.length, ""),
      length([...at, "width"], w.stock.width, ""),
      number([...at, "count"], w.stock.count, scrap ? "1" : w.stock.takes),
      number([...at, "price"], w.stock.price, w.stock.unknown),
      remover(() => relist(app, list, leavingOut(n)), scrap ? w.stock.scrapNo(n + 1) : w.stock.sheetNo(n + 1)),
    );
  });
  const first = materials[0]?.[0] ?? "";
  const inches = typed(valueAt(scenario, ["unit"])) === "in";
  const sheet = { material: first, length: inches ? "96" : "2440 mm", width: inches ? "48" : "1220 mm" };
  const scrap = { material: first, length: inches ? "24" : "600 mm", width: inches ? "16" : "400 mm", scrap: true };
  const element = h(
    "details",
    { class: "more" },
    h("summary", {}, w.stock.title),
    h(
      "fieldset",
      {},
      h("legend", {}, w.stock.both),
      stock.length === 0 ? h("p", { class: "hint" }, w.stock.none) : null,
      ...rows,
      h(
        "div",
        { class: "buttons" },
        h("button", { type: "button", onclick: () => relist(app, list, (all) => [...all, sheet]) }, w.stock.addSheet),
        h("button", { type: "button", onclick: () => relist(app, list, (all) => [...all, scrap]) }, w.stock.addScrap),
      ),
    ),
    h(
      "fieldset",
      { class: "choices" },
      h("legend", {}, w.stock.saw),
      length(["shop", "saw", "kerf"], w.stock.kerf),
      length(["shop", "saw", "trim"], w.stock.trim),
      length(["shop", "saw", "fence"], w.stock.rip),
      length(["shop", "saw", "panel_length"], w.stock.longest),
      length(["shop", "saw", "panel_width"], w.stock.widest),
      number(["shop", "saw", "lift_kg"], w.stock.lift, "25"),
      length(["shop", "saw", "least_cut"], w.stock.least, w.stock.any),
      add(choice(app, { path: ["shop", "saw", "stages"], label: w.stock.order, options: [[2, w.stock.stages[2]], [3, w.stock.stages[3]], [4, w.stock.stages[4]]] })),
    ),
  );
  return { element, fields };
}
