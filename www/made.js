// What is cut already, in the scenario's section `made`: marked, measured, spoiled.
import { fractions, h } from "./dom.js";
import { print } from "./lengths.js";
import { asCut } from "./parts.js";
import { choice, field, tick } from "./scenario-form.js";
import { listOf, typed, valueAt } from "./scenario.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Json} Json */
/** @typedef {import("./types").Part} Part */
/** @typedef {import("./types").State} State */
/** @typedef {import("./scenario-form.js").Field} Field */

/** @param {Json} scenario @param {string} id */
export const placeOf = (scenario, id) => listOf(valueAt(scenario, ["made", "parts"])).findIndex((part) => typed(valueAt(part, ["id"])) === id);

/** Whether a part is cut and good. @param {Json} scenario @param {string} id */
export function isCut(scenario, id) {
  const at = placeOf(scenario, id);
  return at >= 0 && valueAt(scenario, ["made", "parts", at, "spoiled"]) !== true;
}

/** What the core makes of it, once it is cut. @param {State} state @param {string} id */
export const verdict = (state, id) => (state.outcome?.made ?? []).find((row) => row.part === id);

/** @param {{ [key: string]: Json }} scenario @param {string} list @param {Json[]} entries */
function put(scenario, list, entries) {
  const made = scenario["made"];
  const section = made !== null && typeof made === "object" && !Array.isArray(made) ? { ...made } : {};
  if (entries.length > 0) section[list] = entries;
  else delete section[list];
  if (Object.keys(section).length > 0) scenario["made"] = section;
  else delete scenario["made"];
}

/**
 * Marks a part as cut, with the sizes it has in the plan: a later change of mind is then judged against
 * what was cut, and not against itself.
 * @param {App} app
 * @param {Part} part
 * @param {import("./types").Notation} notation
 */
export function markCut(app, part, notation) {
  const fine = notation.startsWith("inch") ? "inch-64" : "mm-tenth";
  const [long, across] = asCut(part);
  app.reshape((scenario) => {
    const parts = listOf(valueAt(scenario, ["made", "parts"]));
    if (placeOf(scenario, part.id) >= 0) return;
    put(scenario, "parts", [...parts, { id: part.id, length: print(long, fine), width: print(across, fine) }]);
  });
}

/** @param {App} app @param {string} id */
export function unmark(app, id) {
  app.reshape((scenario) => put(scenario, "parts", listOf(valueAt(scenario, ["made", "parts"])).filter((part) => typed(valueAt(part, ["id"])) !== id)));
}

/**
 * The entry of one part that is cut: what was measured on it, and what becomes of it.
 * @param {App} app
 * @param {string} id
 * @param {string} name
 * @param {Field[]} fields
 */
export function entry(app, id, name, fields) {
  const at = placeOf(app.state().scenario, id);
  const add = (/** @type {Field} */ made) => {
    fields.push(made);
    return made.element;
  };
  const size = (/** @type {string} */ which, /** @type {string} */ label, placeholder = "as planned") =>
    add(field(app, { path: ["made", "parts", at, which], label, type: "length", placeholder }));
  const spoiled = tick("Spoiled: cut it again", valueAt(app.state().scenario, ["made", "parts", at, "spoiled"]) === true, (on) => app.edit(["made", "parts", at, "spoiled"], on ? true : undefined));
  const said = h("p", { class: "hint", "aria-live": "polite" });
  fields.push({
    element: said,
    key: `made.parts.${at}`,
    update: (state) => {
      const row = verdict(state, id);
      said.replaceChildren(...(row ? [h("strong", {}, fractions(`${row.text.charAt(0).toUpperCase()}${row.text.slice(1)}.`))] : []));
    },
  });
  return h(
    "div",
    { class: "thing-block", role: "group", "aria-label": name },
    h("p", { class: "block-name" }, name),
    h("div", { class: "row" }, size("length", "Came out long"), size("width", "wide"), size("thickness", "thick", "as its sheet")),
    h("div", { class: "row" }, spoiled.element, h("button", { type: "button", class: "plain", "aria-label": `${name} is not cut yet`, onclick: () => unmark(app, id) }, "Not cut yet")),
    said,
  );
}

/**
 * Everything that is cut or measured, and a way to add to it.
 * @param {App} app
 * @param {Field[]} fields
 */
export function entries(app, fields) {
  const { scenario, plan } = app.state();
  const known = new Map((plan?.parts ?? []).map((part) => [part.id, part.name]));
  const listed = listOf(valueAt(scenario, ["made", "parts"])).map((part) => typed(valueAt(part, ["id"])));
  const select = h("select", { id: "made-part" });
  /** @type {unknown} */
  let offered;
  fields.push({
    element: select,
    key: "made.parts",
    update(state) {
      if (offered === state.plan && select.options.length > 0) return;
      offered = state.plan;
      const open = (state.plan?.parts ?? []).filter((part) => part.kind === "panel" && !listed.includes(part.id));
      select.replaceChildren(h("option", { value: "" }, "choose a part"), ...open.map((part) => h("option", { value: part.id }, part.name)));
    },
  });
  select.addEventListener("change", () => {
    const { plan } = app.state();
    const part = plan?.parts.find((one) => one.id === select.value);
    if (part && plan) markCut(app, part, plan.unit);
  });
  const materials = listOf(valueAt(scenario, ["shop", "materials"])).map((material) => /** @type {[string, string]} */ ([typed(valueAt(material, ["id"])), typed(valueAt(material, ["name"])) || typed(valueAt(material, ["id"]))]));
  const sheets = listOf(valueAt(scenario, ["made", "sheets"]));
  const add = (/** @type {Field} */ made) => {
    fields.push(made);
    return made.element;
  };
  return [
    h("p", { class: "hint" }, "Mark what is cut and say where it came out different. What is not cut yet follows."),
    ...listed.map((id) => entry(app, id, known.get(id) ?? id.replaceAll("-", " "), fields)),
    h("div", { class: "field" }, h("label", { for: "made-part" }, "Cut already"), select),
    ...sheets.map((_, i) =>
      h(
        "div",
        { class: "row" },
        add(choice(app, { path: ["made", "sheets", i, "material"], label: "Sheet", options: materials })),
        add(field(app, { path: ["made", "sheets", i, "thickness"], label: "measures", type: "length" })),
        h("button", { type: "button", class: "plain", "aria-label": `Remove sheet ${i + 1}`, onclick: () => app.reshape((scenario) => put(scenario, "sheets", sheets.filter((_, n) => n !== i))) }, "Remove"),
      ),
    ),
    materials.length > sheets.length
      ? h("button", { type: "button", class: "plain", onclick: () => app.reshape((scenario) => put(scenario, "sheets", [...sheets, { material: materials.find(([id]) => !sheets.some((sheet) => typed(valueAt(sheet, ["material"])) === id))?.[0] ?? "" }])) }, "A sheet measures different")
      : null,
  ];
}
