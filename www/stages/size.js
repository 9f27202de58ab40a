// Size: the few choices that shape the piece, and every size that follows from them.
import { checked } from "../accepting.js";
import { compare } from "../compare.js";
import { fractions, h, refill } from "../dom.js";
import { KINDS, become, kindOf } from "../kinds.js";
import { remarks } from "../remarks.js";
import { adding, choice, field, notationOf } from "../scenario-form.js";
import { isListed, materialsOf, valueAt } from "../scenario.js";
import { partDrawings } from "../part-drawings.js";
import { drawings } from "../size-drawing.js";

/** @typedef {import("../types").App} App */
/** @typedef {import("../types").Path} Path */
/** @typedef {import("../scenario-form.js").Field} Field */

/** Parts of what is typed now, or of the last plan.
 * @param {import("../types").State} state */
const partsNow = (state) => state.draft?.parts ?? state.plan?.parts ?? [];

/** @param {import("../types").State} state */
const kindNow = (state) => kindOf(state.scenario, partsNow(state));

/**
 * @param {App} app
 * @param {Field[]} fields
 */
function choices(app, fields) {
  const has = (/** @type {Path} */ ...path) => valueAt(app.state().scenario, path) !== undefined;
  const sheets = materialsOf(app.state().scenario);
  const add = adding(fields);
  const length = (/** @type {Path} */ path, /** @type {string} */ label, placeholder = "as usual") =>
    add(field(app, { path, label, type: "length", placeholder }));
  const sheet = (/** @type {Path} */ path, /** @type {string} */ label) => add(choice(app, { path, label, options: sheets }));
  const pick = (/** @type {Path} */ path, /** @type {string} */ label, /** @type {[string | number | boolean, string][]} */ options, hint = "") =>
    add(choice(app, hint ? { path, label, options, hint } : { path, label, options }));
  const count = (/** @type {Path} */ path, /** @type {string} */ label) => add(field(app, { path, label, type: "number", placeholder: "as usual" }));
  const group = (/** @type {string} */ legend, /** @type {(HTMLElement | null)[]} */ ...kids) =>
    h("fieldset", { class: "choices" }, h("legend", {}, legend), ...kids);
  const pull = has("build", "pull_out");
  const drawers = has("build", "drawers");
  const doors = has("build", "doors");
  const shelves = has("build", "shelves");
  const front = has("build", "front") || drawers || doors;
  const boxes = drawers ? ["build", "drawers", "box"] : ["build", "pull_out"];
  const runner = [...boxes, "runner"];
  const carcass = ["build", "carcass"];
  const people = add(field(app, { path: ["shop", "people"], label: "People who build", type: "number", placeholder: "1" }));
  const shop = [
    length(["shop", "drill", "length"], "Drill, back to chuck"),
    length(["shop", "drill", "bit_length"], "Bit out of the chuck"),
    length(["shop", "bench", "length"], "Bench length"),
    length(["shop", "bench", "width"], "Bench width"),
    length(["shop", "bench", "height"], "Bench height"),
    add(choice(app, { path: ["shop", "square_check"], label: "Check square with", options: [["tape", "a tape"], ["square", "a square"]] })),
  ];
  const printed = add(choice(app, { path: ["print"], label: "Sizes are printed to", options: [["inch-16", "1/16 in"], ["inch-32", "1/32 in"], ["inch-64", "1/64 in"], ["mm-half", "0.5 mm"], ["mm-tenth", "0.1 mm"]] }));
  // The sizes of a listed piece stand in its file, sheets included: only the shop and the words are open.
  if (isListed(app.state().scenario)) return [group("Shop", people, ...shop), group("Words and figures", printed)];

  const kinds = h(
    "select",
    {
      id: "kind",
      onchange: () => {
        const was = kindNow(app.state());
        app.reshape((scenario) => become(scenario, kinds.value, was));
      },
    },
    ...KINDS.map((kind) => h("option", { value: kind.id }, kind.words)),
  );
  // The core's parts tell some kinds apart, and they may come later than the form.
  fields.push({ element: kinds, key: "", update: (state) => void (kinds.value = kindNow(state)) });
  return [
    group(
      "Choices",
      h("div", { class: "field" }, h("label", { for: "kind" }, "Kind of unit"), kinds),
      pull || drawers ? pick([...runner, "kind"], "Runners", [["undermount", "undermount"], ["side-mount", "side-mount"]], "Their length follows from the depth.") : null,
      drawers ? count(["build", "drawers", "count"], "Drawers, one over the other") : null,
      drawers && !doors && !shelves ? pick(["build", "drawers", "fronts"], "Drawer fronts", [["graduated", "higher downwards"], ["equal", "all alike"]]) : null,
      doors ? pick(["build", "doors", "count"], "Doors", [[1, "one"], [2, "two"]]) : null,
      doors && valueAt(app.state().scenario, ["build", "doors", "count"]) !== 2 ? pick(["build", "doors", "hung"], "A single door hangs", [["left", "left"], ["right", "right"]]) : null,
      shelves ? count(["build", "shelves", "count"], "Shelves") : null,
      shelves ? pick(["build", "shelves", "fixing"], "Shelves are", [["fixed", "fixed"], ["pins", "loose on pins"]]) : null,
      has("build", "dividers") ? count(["build", "dividers", "count"], "Dividers") : null,
      sheet([...carcass, "material"], "Carcass sheet"),
      pull || drawers ? sheet([...boxes, "material"], "Box sheet") : null,
      pull ? length(["build", "pull_out", "side_height"], "Box side height") : null,
      length([...carcass, "toe_height"], "Toe kick height"),
      pull && front ? pick(["build", "front", "style"], "Front", [["one", "one board"], ["drawer-over-doors", "drawer over doors, all one pull-out"]]) : null,
      front ? pick(["build", "front", "mount"], "Fronts lie", [["overlay", "before the edges"], ["inset", "between the sides"]]) : null,
      people,
    ),
    h(
      "details",
      { class: "more" },
      h("summary", {}, "All other choices"),
      group(
        "Carcass",
        length([...carcass, "width"], "Outside width", "follows"),
        length([...carcass, "height"], "Outside height", "follows"),
        length([...carcass, "depth"], "Depth without front", "follows"),
        length([...carcass, "side_gap"], "Gap at each side"),
        length([...carcass, "top_gap"], "Gap above"),
        pick([...carcass, "joint"], "Bottom to sides", [["butt", "butted"], ["dado", "in dadoes"], ["rabbet", "in rabbets at the ends"]]),
        length([...carcass, "dado_depth"], "Depth of dadoes and rabbets"),
        pick([...carcass, "glue"], "Glue", [[true, "glue and screws"], [false, "screws only"]]),
        pick([...carcass, "foot"], "Toe kick is", [["integral", "part of the sides"], ["platform", "a platform"], ["legs", "bought legs"]]),
        length([...carcass, "toe_recess"], "Toe kick set back"),
        pick([...carcass, "top"], "Closed above by", [["stretcher", "a stretcher"], ["panel", "a panel"], ["over", "a seat over all"]]),
        length([...carcass, "stretcher_width"], "Front stretcher width"),
        length([...carcass, "nailer_height"], "Rear nailer height"),
        add(field(app, { path: ["build", "banding", "thickness"], section: ["build", "banding"], label: "Edge banding, thickness", type: "length", placeholder: "none" })),
      ),
      group(
        "Back",
        sheet(["build", "back", "material"], "Back sheet"),
        pick(["build", "back", "set"], "Back is", [["applied", "laid on from behind"], ["rabbet", "in rabbets"], ["groove", "in grooves"]]),
        pick(["build", "back", "pieces"], "Back", [[1, "one piece"], [2, "two pieces"]]),
        pick(["build", "back", "seam"], "Seam of a back in two", [["upright", "upright"], ["level", "level"]]),
      ),
      pull || drawers
        ? group(
            "Box and runners",
            sheet([...boxes, "bottom_material"], "Box bottom sheet"),
            drawers ? length([...boxes, "side_height"], "Highest box side") : null,
            length([...boxes, "groove_depth"], "Groove depth"),
            length([...boxes, "bottom_recess"], "Bottom above lower edge"),
            length([...runner, "inside_deduction"], "Undermount: opening less inside width"),
            length([...runner, "side_limit"], "Undermount: thickest box side"),
            length([...runner, "notch_width"], "Undermount: notch width"),
            length([...runner, "notch_height"], "Undermount: notch height"),
            length([...runner, "thickness"], "Side-mount: runner thickness"),
            length([...runner, "height"], "Side-mount: runner height"),
            length([...runner, "under"], "Air under the box"),
            length([...runner, "travel"], "Box comes out by", "all of it"),
            add(field(app, { path: [...runner, "rating_kg"], label: "A pair carries, box included", type: "number", unit: "kg", placeholder: "not known" })),
            h("p", { class: "hint" }, "Read these from your runner's sheet. What is left open is generic."),
          )
        : null,
      drawers
        ? group("Drawers", ...Array.from({ length: Number(valueAt(app.state().scenario, ["build", "drawers", "count"]) ?? 1) || 1 }, (_, i) =>
            length(["build", "drawers", "heights", i], `Front ${i + 1} from the top`, "follows")))
        : null,
      doors
        ? group(
            "Hinges",
            count(["build", "doors", "hinges"], "Hinges on each door"),
            length(["build", "doors", "hinge_inset"], "Outer hinges from the door's ends"),
            length(["build", "doors", "cup"], "Cup, diameter"),
            length(["build", "doors", "cup_depth"], "Cup, depth"),
            length(["build", "doors", "cup_edge"], "Door's edge to the cup"),
            length(["build", "doors", "plate_row"], "Front edge to the plate's screws"),
            h("p", { class: "hint" }, "Read these from your hinge's sheet. What is left open is generic."),
          )
        : null,
      shelves
        ? group(
            "Shelves",
            sheet(["build", "shelves", "material"], "Shelf sheet"),
            length(["build", "shelves", "setback"], "Set back from the front edges"),
            length(["build", "shelves", "pitch"], "On pins: hole to hole"),
            length(["build", "shelves", "row_inset"], "On pins: rows from front and back"),
            length(["build", "shelves", "hole"], "On pins: hole diameter"),
            length(["build", "shelves", "play"], "On pins: air at each end"),
          )
        : null,
      front
        ? group(
            "Front",
            sheet(["build", "front", "material"], "Front sheet"),
            length(["build", "front", "reveal"], "Gap around the front"),
            pull ? length(["build", "front", "drawer_height"], "Upper front, when over doors") : null,
          )
        : null,
      group("Sheets as measured", ...sheets.map(([, name], i) => length(["shop", "materials", i, "thickness"], `${name}, thickness`))),
      group("Shop", ...shop),
      group(
        "Words and figures",
        pick(["unit"], "A plain number means", [["in", "inches"], ["mm", "millimetres"], ["cm", "centimetres"]]),
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

/** The variant kept for comparing: it outlives the visit to another stage.
 * @type {import("../compare.js").Variant | null} */
let kept = null;

/** How what is typed now is cut: not known while it is planned.
 * @param {import("../types").State} state */
const cuttingNow = (state) => (state.planning ? undefined : state.stale ? null : state.cutting);

/** @type {import("../types").Stage} */
export const stage = {
  mount(root, app) {
    let shape = -1;
    /** @type {Field[]} */
    let fields = [];
    /** @type {unknown} */
    let told;
    /** @type {unknown} */
    let sized;
    /** @type {unknown} */
    let planned;
    let planning = false;
    /** @type {unknown} */
    let drawn;
    const form = h("div", { class: "form" });
    const found = h("section", { "aria-label": "Remarks" });
    const sizes = h("div", {});
    const sheets = h("div", { class: "size-drawings" });
    const view = h("div", { class: "finished", "data-scrolls": true });
    const variants = h("div", {});
    const undo = h("button", { type: "button", onclick: () => app.undo() }, "Undo");
    const redo = h("button", { type: "button", onclick: () => app.redo() }, "Redo");
    const keep = h("button", { type: "button", onclick: () => hold() }, "Keep for comparing");
    const drop = h("button", { type: "button", onclick: () => hold(true) }, "Stop comparing");
    const bar = h("div", { class: "size-bar" }, undo, redo, keep, drop);
    const list = partDrawings(app);
    const follows = h("div", { class: "follows" }, found, variants, sizes, list.element);
    root.append(h("h1", {}, "Size"), bar, h("div", { class: "two sizing" }, h("div", { class: "seen" }, view, sheets), form, follows));
    view.append(app.picture.figure);

    /** Keeps what is sized now beside what will be, or lets go of it. */
    function hold(off = false) {
      const { draft } = app.state();
      kept = off || draft === null ? null : { name: "Kept", draft, cutting: cuttingNow(app.state()) };
      beside();
    }
    function beside() {
      const state = app.state();
      const { draft } = state;
      // What was kept while it was planned has its plan now.
      if (kept && kept.draft === draft) kept.cutting ??= cuttingNow(state);
      drop.hidden = kept === null;
      keep.textContent = kept === null ? "Keep for comparing" : "Keep this one instead";
      variants.replaceChildren(...(kept && draft ? [compare(kept, { name: "Now", draft, cutting: cuttingNow(state) }, notationOf(state))] : []));
    }
    /** @param {KeyboardEvent} event */
    function keys(event) {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== "z") return;
      event.preventDefault();
      if (event.shiftKey) app.redo();
      else app.undo();
    }
    root.addEventListener("keydown", keys);

    return {
      update(state) {
        if (shape !== state.shape) {
          shape = state.shape;
          fields = [];
          const open = form.querySelector("details")?.open ?? false;
          refill(form, ...choices(app, fields));
          const more = form.querySelector("details");
          if (more) more.open = open;
        }
        for (const made of fields) made.update(state);
        undo.disabled = state.history.undo === 0;
        redo.disabled = state.history.redo === 0;
        const plan = state.plan;
        list.update(state);
        view.hidden = plan === null;
        if (plan && drawn !== plan) {
          drawn = plan;
          app.picture.finished(`The finished piece: ${plan.title}`);
        }
        // Sizes and drawings at once; remarks of the order come with the plan.
        const now = state.draft ?? state.outcome;
        if (now && sized !== now) {
          sized = now;
          if (now.sizes.length > 0) sizes.replaceChildren(...tables(now.sizes));
          const parts = state.draft?.parts ?? [];
          if (parts.length > 0) sheets.replaceChildren(...drawings(parts, now.sizes));
          beside();
        }
        if (planned !== state.plan || planning !== state.planning) {
          planned = state.plan;
          planning = state.planning;
          beside();
        }
        const said = state.planning && state.draft ? state.draft : state.outcome;
        if (said && told !== said) {
          told = said;
          const { findings } = said;
          // What the checks say of cutting, of a step or of fixing stands there.
          const own = findings.filter((finding) => finding.stage === undefined && !finding.accepted);
          const judged = checked(app, findings.filter((finding) => finding.stage === "size" || (finding.accepted && finding.stage === undefined)), "What the checks say");
          found.replaceChildren(
            ...(own.length > 0 ? [remarks(own)] : []),
            ...(judged ? [judged] : []),
            own.length > 0 || judged ? "" : h("p", { class: "quiet" }, "Nothing to put right."),
          );
        }
      },
    };
  },
};
