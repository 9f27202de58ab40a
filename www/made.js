// What is cut already, in the scenario's section `made`: marked, measured, spoiled.
import { fractions, h } from "./dom.js";
import { leavingOut, relist } from "./editing.js";
import { fineOf, print } from "./lengths.js";
import { asCut } from "./parts.js";
import { partName } from "./plan.js";
import { adding, choice, field, remover, tick } from "./scenario-form.js";
import { listOf, materialsOf, typed, valueAt } from "./scenario.js";
import { CORE, w } from "./words.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Json} Json */
/** @typedef {import("./types").Part} Part */
/** @typedef {import("./types").State} State */
/** @typedef {import("./scenario-form.js").Field} Field */

/** @param {Json} scenario @param {string} id */
const placeOf = (scenario, id) => listOf(valueAt(scenario, ["made", "parts"])).findIndex((part) => typed(valueAt(part, ["id"])) === id);

/** What the core makes of it, once it is cut. @param {State} state @param {string} id */
const verdict = (state, id) => (state.outcome?.made ?? []).find((row) => row.part === id);

/**
 * Marks a part as cut, with the sizes it has in the plan: a later change of mind is then judged against
 * what was cut, and not against itself.
 * @param {App} app
 * @param {Part} part
 * @param {import("./types").Notation} notation
 */
function markCut(app, part, notation) {
  const [long, across] = asCut(part).map((size) => print(size, fineOf(notation)));
  if (placeOf(app.state().scenario, part.id) >= 0) return;
  relist(app, ["made", "parts"], (parts) => [...parts, { id: part.id, length: long ?? "", width: across ?? "" }]);
}

/** @param {App} app @param {string} id */
const unmark = (app, id) => relist(app, ["made", "parts"], (parts) => parts.filter((part) => typed(valueAt(part, ["id"])) !== id));

/**
 * The entry of one part that is cut: what was measured on it, and what becomes of it.
 * @param {App} app
 * @param {string} id
 * @param {string} name
 * @param {Field[]} fields
 */
function entry(app, id, name, fields) {
  const at = placeOf(app.state().scenario, id);
  const add = adding(fields);
  const size = (/** @type {string} */ which, /** @type {string} */ label, placeholder = w.made.planned) =>
    add(field(app, { path: ["made", "parts", at, which], label, type: "length", placeholder }));
  const spoiled = tick(w.made.spoiled, valueAt(app.state().scenario, ["made", "parts", at, "spoiled"]) === true, (on) => app.edit(["made", "parts", at, "spoiled"], on ? true : undefined));
  const said = h("p", { class: "hint", role: "status", lang: CORE });
  fields.push({
    element: said,
    key: `made.parts.${at}`,
    update: (state) => {
      const text = verdict(state, id)?.text ?? "";
      const sentence = text && `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
      // Written again, it would be read out again.
      if (said.textContent !== sentence) said.replaceChildren(h("strong", {}, fractions(sentence)));
    },
  });
  return h(
    "div",
    { class: "thing-block", role: "group", "aria-label": name },
    h("p", { class: "block-name" }, name),
    h("div", { class: "row" }, size("length", w.made.long), size("width", w.made.wide), size("thickness", w.made.thick, w.made.sheetThick)),
    h("div", { class: "row" }, spoiled.element, h("button", { type: "button", class: "plain", "aria-label": w.made.isNotCut(name), onclick: () => unmark(app, id) }, w.made.notCut)),
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
      select.replaceChildren(h("option", { value: "" }, w.made.choose), ...open.map((part) => h("option", { value: part.id }, part.name)));
    },
  });
  select.addEventListener("change", () => {
    const { plan } = app.state();
    const part = plan?.parts.find((one) => one.id === select.value);
    if (part && plan) markCut(app, part, plan.unit);
  });
  const materials = materialsOf(scenario);
  const sheets = listOf(valueAt(scenario, ["made", "sheets"]));
  const open = materials.find(([id]) => !sheets.some((sheet) => typed(valueAt(sheet, ["material"])) === id));
  const add = adding(fields);
  return [
    h("p", { class: "hint" }, w.made.intro),
    ...listed.map((id) => entry(app, id, partName(plan, id), fields)),
    h("div", { class: "field" }, h("label", { for: "made-part" }, w.made.title), select),
    ...sheets.map((_, i) =>
      h(
        "div",
        { class: "row" },
        add(choice(app, { path: ["made", "sheets", i, "material"], label: w.made.sheet, options: materials })),
        add(field(app, { path: ["made", "sheets", i, "thickness"], label: w.made.measures, type: "length" })),
        remover(() => relist(app, ["made", "sheets"], leavingOut(i)), w.made.sheetNo(i + 1)),
      ),
    ),
    materials.length > sheets.length
      ? h("button", { type: "button", class: "plain", onclick: () => relist(app, ["made", "sheets"], (all) => [...all, { material: open?.[0] ?? "" }]) }, w.made.different)
      : null,
  ];
}
