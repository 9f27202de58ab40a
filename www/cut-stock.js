// What there is to cut from, and the saw: the part of the scenario that Cut asks for.
import { h } from "./dom.js";
import { leavingOut, relist } from "./editing.js";
import { adding, choice, field, remover } from "./scenario-form.js";
import { listOf, materialsOf, typed, valueAt } from "./scenario.js";

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
  const length = (/** @type {Path} */ path, /** @type {string} */ label, placeholder = "as usual") => add(field(app, { path, label, type: "length", placeholder }));
  const number = (/** @type {Path} */ path, /** @type {string} */ label, placeholder = "") => add(field(app, { path, label, type: "number", placeholder }));
  const stock = listOf(valueAt(scenario, list));
  const rows = stock.map((one, n) => {
    const at = [...list, n];
    const scrap = valueAt(one, ["scrap"]) === true;
    return h(
      "div",
      { class: "row" },
      add(field(app, { path: [...at, "id"], label: scrap ? "Scrap" : "Sheet", type: "text", placeholder: "name" })),
      add(choice(app, { path: [...at, "material"], label: "Material", options: materials })),
      length([...at, "length"], "Length", ""),
      length([...at, "width"], "Width", ""),
      number([...at, "count"], "Count", scrap ? "1" : "as it takes"),
      number([...at, "price"], "Price of one", "not known"),
      remover(() => relist(app, list, leavingOut(n)), `${scrap ? "scrap" : "sheet"} ${n + 1}`),
    );
  });
  const first = materials[0]?.[0] ?? "";
  const inches = typed(valueAt(scenario, ["unit"])) === "in";
  const sheet = { material: first, length: inches ? "96" : "2440 mm", width: inches ? "48" : "1220 mm" };
  const scrap = { material: first, length: inches ? "24" : "600 mm", width: inches ? "16" : "400 mm", scrap: true };
  const element = h(
    "details",
    { class: "more" },
    h("summary", {}, "Sheets, scraps and saw"),
    h(
      "fieldset",
      {},
      h("legend", {}, "Sheets and scraps"),
      stock.length === 0 ? h("p", { class: "hint" }, "None is given: sheets of a usual size stand in. Measure yours; they are often larger than named.") : null,
      ...rows,
      h(
        "div",
        { class: "buttons" },
        h("button", { type: "button", onclick: () => relist(app, list, (all) => [...all, sheet]) }, "Add a sheet"),
        h("button", { type: "button", onclick: () => relist(app, list, (all) => [...all, scrap]) }, "Add a scrap"),
      ),
    ),
    h(
      "fieldset",
      { class: "choices" },
      h("legend", {}, "Saw"),
      length(["shop", "saw", "kerf"], "Kerf"),
      length(["shop", "saw", "trim"], "Off a rough edge"),
      length(["shop", "saw", "fence"], "Widest rip"),
      length(["shop", "saw", "panel_length"], "Longest panel on the saw"),
      length(["shop", "saw", "panel_width"], "Widest panel on the saw"),
      number(["shop", "saw", "lift_kg"], "Heaviest sheet to lift, kg", "25"),
      length(["shop", "saw", "least_cut"], "Narrowest strip to cut off", "any"),
      add(choice(app, { path: ["shop", "saw", "stages"], label: "Order of the cuts", options: [[2, "rip, crosscut"], [3, "rip, crosscut, trim"], [4, "one cut more"]] })),
    ),
  );
  return { element, fields };
}
