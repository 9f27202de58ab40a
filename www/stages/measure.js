// Measure: the gap as it was measured, and what must go in.
import { download, fractions, h } from "../dom.js";
import { elevation, plan } from "../drawing.js";
import { views } from "../drawing-piece.js";
import { choice, field, remarks } from "../scenario-form.js";
import { isListed, keyOf, listOf, typed, valueAt } from "../scenario.js";

/** @typedef {import("../types").App} App */
/** @typedef {import("../types").State} State */
/** @typedef {import("../scenario-form.js").Field} Field */

/** @type {[string, string][]} */
const NEIGHBOURS = [["unit", "another cabinet"], ["wall", "a wall"], ["open", "nothing"]];

/**
 * @param {App} app
 * @param {Field[]} fields
 */
function opening(app, fields) {
  const add = (/** @type {Field} */ made) => {
    fields.push(made);
    return made.element;
  };
  const space = valueAt(app.state().scenario, ["space"]);
  const rows = listOf(valueAt(space ?? null, ["widths"])).map((_, i) =>
    h(
      "div",
      { class: "row" },
      add(field(app, { path: ["space", "widths", i, "width"], label: `Width ${i + 1}`, type: "length" })),
      add(field(app, { path: ["space", "widths", i, "at"], label: "taken at height", type: "length" })),
      i > 0
        ? h("button", { type: "button", class: "plain", "aria-label": `Remove width ${i + 1}`, onclick: () => removeAt(app, ["space", "widths"], i) }, "Remove")
        : null,
    ),
  );
  return h(
    "fieldset",
    {},
    h("legend", {}, "The opening"),
    h("p", { class: "hint" }, "Measure the width low, in the middle and high. The least counts."),
    ...rows,
    h("button", { type: "button", class: "plain", onclick: () => append(app, ["space", "widths"], {}) }, "Add a width"),
    h(
      "div",
      { class: "row" },
      add(field(app, { path: ["space", "height"], label: "Height", type: "length" })),
      add(field(app, { path: ["space", "depth"], label: "Depth", type: "length" })),
      add(field(app, { path: ["space", "floor", "out_of_level"], label: "Floor out of level", type: "length", placeholder: "0" })),
    ),
    h(
      "div",
      { class: "row" },
      add(choice(app, { path: ["space", "left"], label: "On the left stands", options: NEIGHBOURS })),
      add(choice(app, { path: ["space", "right"], label: "On the right stands", options: NEIGHBOURS })),
    ),
  );
}

/**
 * @param {App} app
 * @param {Field[]} fields
 */
function contents(app, fields) {
  const add = (/** @type {Field} */ made) => {
    fields.push(made);
    return made.element;
  };
  const things = listOf(valueAt(app.state().scenario, ["contents"]));
  const blocks = things.map((thing, i) => {
    const at = (/** @type {string} */ name) => ["contents", i, name];
    const called = typed(valueAt(thing, ["name"])) || `thing ${i + 1}`;
    return h(
      "div",
      { class: "thing-block", role: "group", "aria-label": called },
      h(
        "div",
        { class: "row" },
        add(field(app, { path: at("name"), label: "What it is", type: "text" })),
        add(field(app, { path: at("count"), label: "How many", type: "number" })),
        h("button", { type: "button", class: "plain", "aria-label": `Remove ${called}`, onclick: () => removeAt(app, ["contents"], i) }, "Remove"),
      ),
      h(
        "div",
        { class: "row" },
        add(field(app, { path: at("width"), label: "Width", type: "length" })),
        add(field(app, { path: at("depth"), label: "Depth", type: "length" })),
        add(field(app, { path: at("height"), label: "Height", type: "length" })),
      ),
      h(
        "div",
        { class: "row" },
        add(field(app, { path: at("clearance"), label: "Air around each", type: "length" })),
        add(field(app, { path: at("mass_kg"), label: "Mass of one, full", type: "number", unit: "kg" })),
        add(choice(app, { path: at("arrange"), label: "They stand", options: [["side-by-side", "side by side"], ["in-line", "one behind the other"]] })),
      ),
    );
  });
  return h(
    "fieldset",
    {},
    h("legend", {}, "What goes in"),
    h("p", { class: "hint" }, "Measure each thing at its widest, rims and handles too."),
    ...blocks,
    h("button", { type: "button", class: "plain", onclick: () => append(app, ["contents"], { count: 1 }) }, "Add a thing"),
  );
}

/**
 * What stands in place of the gap when the piece is listed: how big it comes out.
 * @param {State} state
 */
function listed(state) {
  const outside = (state.outcome?.sizes ?? []).filter((row) => row.id.startsWith("piece-"));
  const count = listOf(valueAt(state.scenario, ["piece", "parts"])).length;
  return h(
    "fieldset",
    {},
    h("legend", {}, "The piece"),
    h("p", { class: "hint" }, `Its file lists ${count} parts, each with its place and size, so there is no gap to measure. To change one, change the file and open it again.`),
    outside.length > 0
      ? h(
          "table",
          { class: "sizes" },
          h("caption", { class: "vh" }, "Outside sizes and mass"),
          h("tbody", {}, ...outside.map((row) => h("tr", {}, h("th", { scope: "row" }, row.label), h("td", { class: "number" }, fractions(row.text))))),
        )
      : null,
  );
}

/**
 * @param {App} app
 * @param {[string] | [string, string]} path of a list
 * @param {import("../types").Json} row
 */
function append(app, path, row) {
  app.reshape((scenario) => {
    const [first, second] = path;
    if (second === undefined) {
      scenario[first] = [...listOf(scenario[first]), row];
      return;
    }
    const found = scenario[first];
    const section = found !== null && typeof found === "object" && !Array.isArray(found) ? found : {};
    scenario[first] = { ...section, [second]: [...listOf(section[second]), row] };
  });
}

/**
 * @param {App} app
 * @param {[string] | [string, string]} path of a list
 * @param {number} index
 */
function removeAt(app, path, index) {
  app.reshape((scenario) => {
    const [first, second] = path;
    const rest = (/** @type {import("../types").Json | undefined} */ list) => listOf(list).filter((_, i) => i !== index);
    if (second === undefined) {
      scenario[first] = rest(scenario[first]);
      return;
    }
    const section = scenario[first];
    if (section !== null && typeof section === "object" && !Array.isArray(section)) {
      scenario[first] = { ...section, [second]: rest(section[second]) };
    }
  });
}

/** @param {App} app */
function files(app) {
  const state = app.state();
  const picker = h("input", {
    type: "file",
    id: "open-file",
    class: "vh",
    accept: ".json,application/json",
    onchange: async () => {
      const file = picker.files?.[0];
      if (file) await app.openFile(file);
      picker.value = "";
    },
  });
  const select = h("select", { id: "example", onchange: () => app.loadExample(select.value) });
  if (state.example === "") select.append(h("option", { value: "", selected: true }, "my own file"));
  for (const example of state.examples) {
    const name = example.file.replace(/\.json$/, "");
    select.append(h("option", { value: name, selected: name === state.example }, example.title));
  }
  return h(
    "div",
    { class: "files" },
    h("div", { class: "field" }, h("label", { for: "example" }, "Example"), select),
    h(
      "div",
      { class: "buttons" },
      h("button", { type: "button", onclick: () => download("scenario.json", JSON.stringify(app.state().scenario, null, 2), "application/json") }, "Save to a file"),
      picker,
      h("label", { for: "open-file", class: "button" }, "Open a file"),
      h("button", { type: "button", onclick: () => app.startAgain() }, "Start again"),
    ),
  );
}

/** @type {import("../types").Stage} */
export const stage = {
  mount(root, app) {
    let shape = -1;
    /** @type {Field[]} */
    let fields = [];
    const form = h("div", { class: "form" });
    const drawings = h("div", { class: "drawings" });
    const rest = h("div", { class: "rest" });
    root.append(h("h1", {}, "Measure"), h("div", { class: "two measure" }, form, drawings));
    const piece = h("div", {});
    /** @type {unknown} */
    let drawn;
    /** @type {unknown} */
    let sized;

    return {
      update(state) {
        const parts = isListed(state.scenario);
        if (shape !== state.shape) {
          shape = state.shape;
          fields = [];
          form.replaceChildren(files(app), rest, ...(parts ? [piece] : [opening(app, fields), contents(app, fields)]));
        }
        // Until the core has answered, the piece is drawn without its sizes.
        if (drawn !== state.scenario || (parts && sized !== state.outcome)) {
          drawn = state.scenario;
          sized = state.outcome;
          if (parts) {
            piece.replaceChildren(listed(state));
            drawings.replaceChildren(...views(state.scenario, state.outcome?.sizes ?? []));
          } else drawings.replaceChildren(elevation(state.scenario), plan(state.scenario));
        }
        for (const made of fields) made.update(state);
        const shown = new Set(fields.map((made) => made.key));
        const others = (state.outcome?.findings ?? []).filter((finding) => {
          const serious = finding.severity === "stop" || finding.severity === "fix";
          return serious && !shown.has(keyOf(finding.where));
        });
        rest.replaceChildren(...(others.length > 0 ? [remarks(others)] : []));
      },
    };
  },
};
