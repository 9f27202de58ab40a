// Size: the few choices that shape the piece, and every size that follows from them.
import { checked } from "../accepting.js";
import { fractions, h } from "../dom.js";
import { choice, field, remarks } from "../scenario-form.js";
import { isListed, listOf, typed, valueAt } from "../scenario.js";

/** @typedef {import("../types").App} App */
/** @typedef {import("../types").Path} Path */
/** @typedef {import("../scenario-form.js").Field} Field */

/**
 * @param {App} app
 * @returns {[string, string][]}
 */
function materials(app) {
  return listOf(valueAt(app.state().scenario, ["shop", "materials"])).map((material) => {
    const id = typed(valueAt(material, ["id"]));
    return [id, typed(valueAt(material, ["name"])) || id];
  });
}

/**
 * @param {App} app
 * @param {Field[]} fields
 */
function choices(app, fields) {
  const has = (/** @type {Path} */ ...path) => valueAt(app.state().scenario, path) !== undefined;
  const sheets = materials(app);
  /** @param {Field} made */
  const add = (made) => {
    fields.push(made);
    return made.element;
  };
  const length = (/** @type {Path} */ path, /** @type {string} */ label, placeholder = "as usual") =>
    add(field(app, { path, label, type: "length", placeholder }));
  const sheet = (/** @type {Path} */ path, /** @type {string} */ label) => add(choice(app, { path, label, options: sheets }));
  const pull = has("build", "pull_out");
  const front = has("build", "front");
  const back = has("build", "back");
  const runner = ["build", "pull_out", "runner"];
  const carcass = ["build", "carcass"];
  const shop = h(
    "fieldset",
    { class: "choices" },
    h("legend", {}, "Shop"),
    add(field(app, { path: ["shop", "people"], label: "People", type: "number" })),
    length(["shop", "drill", "length"], "Drill, back to chuck"),
    length(["shop", "drill", "bit_length"], "Bit out of the chuck"),
    length(["shop", "bench", "length"], "Bench length"),
    length(["shop", "bench", "width"], "Bench width"),
    length(["shop", "bench", "height"], "Bench height"),
    add(choice(app, { path: ["shop", "square_check"], label: "Check square with", options: [["tape", "a tape"], ["square", "a square"]] })),
  );
  const printed = add(choice(app, { path: ["print"], label: "Sizes are printed to", options: [["inch-16", "1/16 in"], ["inch-32", "1/32 in"], ["inch-64", "1/64 in"], ["mm-half", "0.5 mm"], ["mm-tenth", "0.1 mm"]] }));
  // The sizes of a listed piece stand in its file, sheets included: only the shop and the words are open.
  if (isListed(app.state().scenario)) return [shop, h("fieldset", { class: "choices" }, h("legend", {}, "Words and figures"), printed)];

  return [
    h(
      "fieldset",
      { class: "choices" },
      h("legend", {}, "Choices"),
      pull ? add(choice(app, { path: [...runner, "kind"], label: "Runners", options: [["undermount", "undermount"], ["side-mount", "side-mount"]], hint: "Their length follows from the depth." })) : null,
      sheet([...carcass, "material"], "Carcass sheet"),
      pull ? sheet(["build", "pull_out", "material"], "Box sheet") : null,
      pull ? length(["build", "pull_out", "side_height"], "Box side height") : null,
      length([...carcass, "toe_height"], "Toe kick height"),
      front ? add(choice(app, { path: ["build", "front", "style"], label: "Front", options: [["one", "one board"], ["drawer-over-doors", "drawer over doors, all one pull-out"]] })) : null,
      back ? add(choice(app, { path: ["build", "back", "pieces"], label: "Back", options: [[1, "one piece"], [2, "two pieces"]] })) : null,
    ),
    h(
      "details",
      { class: "more" },
      h("summary", {}, "All other choices"),
      h(
        "fieldset",
        { class: "choices" },
        h("legend", {}, "Carcass"),
        length([...carcass, "width"], "Outside width", "follows"),
        length([...carcass, "height"], "Outside height", "follows"),
        length([...carcass, "depth"], "Depth without front", "follows"),
        length([...carcass, "side_gap"], "Gap at each side"),
        length([...carcass, "top_gap"], "Gap above"),
        add(choice(app, { path: [...carcass, "joint"], label: "Bottom to sides", options: [["butt", "butted"], ["dado", "in dadoes"]] })),
        add(choice(app, { path: [...carcass, "glue"], label: "Glue", options: [[true, "glue and screws"], [false, "screws only"]] })),
        length([...carcass, "toe_recess"], "Toe kick set back"),
        length([...carcass, "stretcher_width"], "Front stretcher width"),
        length([...carcass, "nailer_height"], "Rear nailer height"),
        back ? sheet(["build", "back", "material"], "Back sheet") : null,
        back ? add(choice(app, { path: ["build", "back", "seam"], label: "Seam of a back in two", options: [["upright", "upright"], ["level", "level"]] })) : null,
      ),
      pull
        ? h(
            "fieldset",
            { class: "choices" },
            h("legend", {}, "Box and runners"),
            sheet(["build", "pull_out", "bottom_material"], "Box bottom sheet"),
            length(["build", "pull_out", "groove_depth"], "Groove depth"),
            length(["build", "pull_out", "bottom_recess"], "Bottom above lower edge"),
            length([...runner, "inside_deduction"], "Undermount: opening less inside width"),
            length([...runner, "thickness"], "Side-mount: runner thickness"),
            length([...runner, "under"], "Air under the box"),
            h("p", { class: "hint" }, "Read these from the sheet that comes with your runners."),
          )
        : null,
      front
        ? h(
            "fieldset",
            { class: "choices" },
            h("legend", {}, "Front"),
            sheet(["build", "front", "material"], "Front sheet"),
            length(["build", "front", "reveal"], "Gap around the front"),
            length(["build", "front", "drawer_height"], "Upper front, when over doors"),
          )
        : null,
      h(
        "fieldset",
        { class: "choices" },
        h("legend", {}, "Sheets as measured"),
        ...sheets.map(([, name], i) => length(["shop", "materials", i, "thickness"], `${name}, thickness`)),
      ),
      shop,
      h(
        "fieldset",
        { class: "choices" },
        h("legend", {}, "Words and figures"),
        add(choice(app, { path: ["unit"], label: "A plain number means", options: [["in", "inches"], ["mm", "millimetres"], ["cm", "centimetres"]] })),
        printed,
      ),
    ),
  ];
}

/**
 * @param {import("../types").SizeRow[]} sizes
 * @param {string} caption
 */
function table(sizes, caption) {
  return h(
    "table",
    { class: "sizes" },
    h("caption", {}, caption),
    h("thead", {}, h("tr", {}, h("th", { scope: "col" }, "What"), h("th", { scope: "col", class: "number" }, "Size"))),
    h(
      "tbody",
      {},
      ...sizes.map((row) =>
        h(
          "tr",
          {},
          h(
            "th",
            { scope: "row" },
            row.why ? h("details", {}, h("summary", {}, row.label), h("p", { class: "quiet" }, fractions(row.why))) : row.label,
          ),
          h("td", { class: "number" }, fractions(row.text)),
        ),
      ),
    ),
  );
}

/**
 * The sizes that follow; the parts of a listed piece, which may be many, behind one line.
 * @param {import("../types").SizeRow[]} sizes
 * @returns {HTMLElement[]}
 */
function tables(sizes) {
  const isPart = (/** @type {import("../types").SizeRow} */ row) => row.id.startsWith("part-");
  const parts = sizes.filter(isPart);
  const others = sizes.filter((row) => !isPart(row));
  return [
    ...(others.length > 0 ? [table(others, "Sizes that follow")] : []),
    ...(parts.length > 0 ? [h("details", { class: "more" }, h("summary", {}, `All ${parts.length} parts`), table(parts, "Parts as listed"))] : []),
  ];
}

/** @type {import("../types").Stage} */
export const stage = {
  mount(root, app) {
    let shape = -1;
    /** @type {Field[]} */
    let fields = [];
    /** @type {unknown} */
    let told;
    /** @type {unknown} */
    let drawn;
    const form = h("div", { class: "form" });
    const found = h("section", { "aria-label": "Remarks" });
    const sizes = h("div", {});
    const view = h("div", { class: "finished", "data-scrolls": true });
    root.append(h("h1", {}, "Size"), h("div", { class: "two sizing" }, view, form, h("div", { class: "aside" }, found, sizes)));
    view.append(app.picture.figure);

    return {
      update(state) {
        if (shape !== state.shape) {
          shape = state.shape;
          fields = [];
          form.replaceChildren(...choices(app, fields));
        }
        for (const made of fields) made.update(state);
        const plan = state.plan;
        view.hidden = plan === null;
        if (plan && drawn !== plan) {
          drawn = plan;
          app.picture.finished(`The finished piece: ${plan.title}`);
        }
        if (state.outcome && told !== state.outcome) {
          told = state.outcome;
          const { findings } = state.outcome;
          // What the checks say of cutting, of a step or of fixing stands there.
          const own = findings.filter((finding) => finding.stage === undefined && !finding.accepted);
          const sized = checked(app, findings.filter((finding) => finding.stage === "size" || (finding.accepted && finding.stage === undefined)), "What the checks say");
          found.replaceChildren(
            ...(own.length > 0 ? [remarks(own)] : []),
            ...(sized ? [sized] : []),
            own.length > 0 || sized ? "" : h("p", { class: "quiet" }, "Nothing to put right."),
          );
          sizes.replaceChildren(...tables(state.outcome.sizes));
        }
      },
    };
  },
};
