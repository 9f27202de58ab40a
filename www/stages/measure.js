// Measure: the gap as it was measured, and what must go in.
import { download, fractions, h, refill } from "../dom.js";
import { elevation, plan } from "../drawing-gap.js";
import { views } from "../drawing-piece.js";
import { leavingOut, pruning, relist } from "../editing.js";
import { entries } from "../made.js";
import { fold, inTheWay, wavy, wayIn } from "../measure-form.js";
import { run } from "../measure-run.js";
import { remarks } from "../remarks.js";
import { adding, choice, field, remover } from "../scenario-form.js";
import { exampleName, isListed, keyOf, listOf, sectionOf, typed, valueAt, withValue } from "../scenario.js";
import { CORE, w } from "../words.js";

/** @typedef {import("../types").App} App */
/** @typedef {import("../types").State} State */
/** @typedef {import("../scenario-form.js").Field} Field */

/**
 * The few readings that matter first.
 * @param {App} app
 * @param {(made: Field) => HTMLElement} add
 */
function opening(app, add) {
  /** @type {["space", string]} */
  const widths = ["space", "widths"];
  const rows = listOf(valueAt(app.state().scenario, widths)).map((_, i) =>
    h(
      "div",
      { class: "row" },
      add(field(app, { path: [...widths, i, "width"], label: w.measure.widthNo(i + 1), type: "length" })),
      add(field(app, { path: [...widths, i, "at"], label: w.measure.taken, type: "length" })),
      i > 0 ? remover(() => relist(app, widths, leavingOut(i)), w.measure.theWidth(i + 1)) : null,
    ),
  );
  return h(
    "fieldset",
    {},
    h("legend", {}, w.measure.opening),
    h("p", { class: "hint" }, w.measure.widthHint),
    ...rows,
    h("button", { type: "button", class: "plain", onclick: () => relist(app, widths, (all) => [...all, {}]) }, w.measure.addWidth),
    h(
      "div",
      { class: "row" },
      add(field(app, { path: ["space", "height"], label: w.measure.height, type: "length" })),
      add(field(app, { path: ["space", "depth"], label: w.measure.depth, type: "length" })),
      add(field(app, { path: ["space", "floor", "out_of_level"], label: w.measure.outOfLevel, type: "length", placeholder: "0" })),
    ),
    h(
      "div",
      { class: "row" },
      add(choice(app, { path: ["space", "left"], label: w.measure.onLeft, options: Object.entries(w.measure.neighbours) })),
      add(choice(app, { path: ["space", "right"], label: w.measure.onRight, options: Object.entries(w.measure.neighbours) })),
      add(choice(app, { path: ["space", "above"], label: w.measure.aboveIs, options: Object.entries(w.measure.above) })),
    ),
  );
}

/**
 * @param {App} app
 * @param {(made: Field) => HTMLElement} add
 */
function contents(app, add) {
  const things = listOf(valueAt(app.state().scenario, ["contents"]));
  const names = things.map((thing) => w.contents.many(typed(valueAt(thing, ["count"])) || "1", typed(valueAt(thing, ["name"])) || w.contents.unnamed));
  const blocks = things.map((thing, i) => {
    const at = (/** @type {string} */ name) => ["contents", i, name];
    const called = typed(valueAt(thing, ["name"])) || w.contents.unnamedNo(i + 1);
    const grid = typed(valueAt(thing, ["arrange"])) === "grid";
    /** Changes this thing alone. @param {(thing: { [key: string]: import("../types").Json }) => import("../types").Json} change */
    const changed = (change) => relist(app, ["contents"], (all) => all.map((one, n) => (n === i ? change(sectionOf(one)) : one)));
    const turn = () => changed((one) => ({ ...one, width: one["depth"] ?? "", depth: one["width"] ?? "" }));
    /** @type {App} How many stand across is only asked of a grid. */
    const arranged = {
      ...app,
      edit: (_, value) => changed((one) => withValue(value === "grid" ? one : withValue(one, ["across"], undefined), ["arrange"], value)),
    };
    return h(
      "div",
      { class: "thing-block", role: "group", "aria-label": called },
      h(
        "div",
        { class: "row" },
        add(field(app, { path: at("name"), label: w.contents.what, type: "text" })),
        add(field(app, { path: at("count"), label: w.contents.count, type: "number" })),
        remover(() => relist(app, ["contents"], leavingOut(i)), called),
      ),
      h(
        "div",
        { class: "row" },
        add(field(app, { path: at("width"), label: w.contents.width, type: "length" })),
        add(field(app, { path: at("depth"), label: w.contents.depth, type: "length" })),
        add(field(app, { path: at("height"), label: w.contents.height, type: "length" })),
        h("button", { type: "button", class: "plain", "aria-label": w.contents.turns(called), onclick: turn }, w.contents.turn),
      ),
      h(
        "div",
        { class: "row" },
        add(field(app, { path: at("clearance"), label: w.contents.air, type: "length" })),
        add(field(app, { path: at("mass_kg"), label: w.contents.mass, type: "number", unit: "kg" })),
        add(field(app, { path: at("lift"), label: w.contents.lift, type: "length", placeholder: w.contents.itsHeight })),
        add(choice(arranged, { path: at("arrange"), label: w.contents.stand, options: Object.entries(w.contents.ways) })),
        grid ? add(field(app, { path: at("across"), label: w.contents.across, type: "number", placeholder: w.contents.square })) : null,
      ),
    );
  });
  return fold(
    w.contents.title,
    names.join(", ") || w.contents.none,
    true,
    h("p", { class: "hint" }, w.contents.hint),
    ...blocks,
    h("button", { type: "button", class: "plain", onclick: () => relist(app, ["contents"], (all) => [...all, { count: 1 }]) }, w.contents.add),
  );
}

/**
 * What the readings come to, each with its sum.
 * @param {import("../types").SizeRow[]} rows
 */
function comesTo(rows) {
  return h(
    "table",
    { class: "sizes comes" },
    h("caption", {}, w.measure.comesTo),
    h("tbody", {}, ...rows.map((row) => h("tr", {}, h("th", { scope: "row", lang: CORE }, h("details", {}, h("summary", {}, row.label), h("p", { class: "quiet" }, fractions(row.why)))), h("td", { class: "number", lang: CORE }, fractions(row.text))))),
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
    h("legend", {}, w.measure.piece),
    h("p", { class: "hint" }, w.measure.listed(count)),
    outside.length > 0
      ? h(
          "table",
          { class: "sizes" },
          h("caption", { class: "vh" }, w.measure.outside),
          h("tbody", {}, ...outside.map((row) => h("tr", {}, h("th", { scope: "row", lang: CORE }, row.label), h("td", { class: "number", lang: CORE }, fractions(row.text))))),
        )
      : null,
  );
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
  if (state.example === "") select.append(h("option", { value: "", selected: true }, w.measure.own));
  for (const example of state.examples) {
    const name = exampleName(example);
    select.append(h("option", { value: name, selected: name === state.example }, example.title));
  }
  return h(
    "div",
    { class: "files" },
    h("div", { class: "field" }, h("label", { for: "example" }, w.measure.example), select),
    h(
      "div",
      { class: "buttons" },
      h("button", { type: "button", onclick: () => download("scenario.json", JSON.stringify(app.state().scenario, null, 2), "application/json") }, w.measure.save),
      picker,
      h("label", { for: "open-file", class: "button" }, w.measure.open),
      h("button", { type: "button", onclick: () => app.startAgain() }, w.measure.startAgain),
    ),
  );
}

/** Places that this stage answers for. */
const OF_THE_GAP = /^(space|run|contents|made)\b/;

/** @type {import("../types").Stage} */
export const stage = {
  mount(root, app) {
    let shape = -1;
    /** @type {Field[]} */
    let fields = [];
    const form = h("div", { class: "form" });
    const drawings = h("div", { class: "gap-drawings" });
    const others = h("div", { class: "others" });
    const sums = h("div", { class: "sums" });
    root.append(h("h1", {}, w.stages.measure), h("div", { class: "two measure" }, form, drawings));
    const piece = h("div", {});
    /** @type {unknown} */
    let drawn;
    /** @type {unknown} */
    let sized;
    /** @type {unknown} */
    let summed;
    let remarked = "";

    return {
      update(state) {
        const parts = isListed(state.scenario);
        if (shape !== state.shape) {
          shape = state.shape;
          fields = [];
          const add = adding(fields);
          const kept = pruning(app);
          const cut = listOf(valueAt(state.scenario, ["made", "parts"])).length + listOf(valueAt(state.scenario, ["made", "sheets"])).length;
          /** @type {(Node | null)[]} */
          const groups = parts ? [piece] : [opening(kept, add), contents(app, add), wavy(app, add), inTheWay(app, add), wayIn(app, add), run(app, add)];
          groups.push(fold(w.made.title, cut > 0 ? w.made.entries(cut) : w.made.none, false, ...entries(kept, fields)), sums);
          refill(form, files(app), others, ...groups);
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
        for (const group of form.querySelectorAll("details.more")) {
          // What is wrong must be seen.
          if (group instanceof HTMLDetailsElement && !group.open && group.querySelector("[aria-invalid]")) group.open = true;
        }
        if (state.outcome && summed !== state.outcome) {
          summed = state.outcome;
          const rows = state.outcome.measured ?? [];
          sums.replaceChildren(...(rows.length > 0 ? [comesTo(rows)] : []));
        }
        const shown = new Set(fields.map((made) => made.key));
        const rest = (state.outcome?.findings ?? []).filter((finding) => {
          const serious = finding.severity === "stop" || finding.severity === "fix" || OF_THE_GAP.test(finding.where);
          return serious && finding.severity !== "note" && !shown.has(keyOf(finding.where));
        });
        const now = JSON.stringify(rest);
        if (remarked === now) return;
        remarked = now;
        others.replaceChildren(...(rest.length > 0 ? [remarks(rest)] : []));
      },
    };
  },
};
