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
import { CORE, w } from "../words.js";

/** @typedef {import("../types").App} App */
/** @typedef {import("../types").Path} Path */
/** @typedef {import("../scenario-form.js").Field} Field */

/** Parts of what is typed now, or of the last plan.
 * @param {import("../types").State} state */
const partsNow = (state) => state.draft?.parts ?? state.plan?.parts ?? [];

/** @param {import("../types").State} state */
const kindNow = (state) => kindOf(state.scenario, partsNow(state));

/** Options that stand for the numbers from 1. @param {string[]} words @returns {[number, string][]} */
const numbered = (words) => words.map((word, i) => [i + 1, word]);

/**
 * @param {App} app
 * @param {Field[]} fields
 */
function choices(app, fields) {
  const has = (/** @type {Path} */ ...path) => valueAt(app.state().scenario, path) !== undefined;
  const sheets = materialsOf(app.state().scenario);
  const add = adding(fields);
  const length = (/** @type {Path} */ path, /** @type {string} */ label, placeholder = w.form.usual) =>
    add(field(app, { path, label, type: "length", placeholder }));
  const sheet = (/** @type {Path} */ path, /** @type {string} */ label) => add(choice(app, { path, label, options: sheets }));
  const pick = (/** @type {Path} */ path, /** @type {string} */ label, /** @type {[string | number | boolean, string][]} */ options, hint = "") =>
    add(choice(app, hint ? { path, label, options, hint } : { path, label, options }));
  const count = (/** @type {Path} */ path, /** @type {string} */ label) => add(field(app, { path, label, type: "number", placeholder: w.form.usual }));
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
  const people = add(field(app, { path: ["shop", "people"], label: w.shop.people, type: "number", placeholder: "1" }));
  const shop = [
    length(["shop", "drill", "length"], w.shop.drill),
    length(["shop", "drill", "bit_length"], w.shop.bit),
    length(["shop", "bench", "length"], w.shop.benchLength),
    length(["shop", "bench", "width"], w.shop.benchWidth),
    length(["shop", "bench", "height"], w.shop.benchHeight),
    add(field(app, { path: ["shop", "room_c"], label: w.shop.room, type: "number", unit: "°C", placeholder: w.runner.unknown })),
    add(field(app, { path: ["shop", "glue", "least_c"], label: w.shop.glueLeast, type: "number", unit: "°C", placeholder: "10" })),
    add(choice(app, { path: ["shop", "square_check"], label: w.shop.square, options: Object.entries(w.shop.squares) })),
  ];
  const printed = add(choice(app, { path: ["print"], label: w.shop.print, options: [["inch-16", "1/16 in"], ["inch-32", "1/32 in"], ["inch-64", "1/64 in"], ["mm-half", "0.5 mm"], ["mm-tenth", "0.1 mm"]] }));
  // The sizes of a listed piece stand in its file, sheets included: only the shop and the words are open.
  if (isListed(app.state().scenario)) return [group(w.size.groups.shop, people, ...shop), group(w.size.groups.figures, printed)];

  const kinds = h(
    "select",
    {
      id: "kind",
      onchange: () => {
        const was = kindNow(app.state());
        app.reshape((scenario) => become(scenario, kinds.value, was));
      },
    },
    ...KINDS.map((kind) => h("option", { value: kind.id }, w.kinds[kind.id])),
  );
  // The core's parts tell some kinds apart, and they may come later than the form.
  fields.push({ element: kinds, key: "", update: (state) => void (kinds.value = kindNow(state)) });
  return [
    group(
      w.size.groups.choices,
      h("div", { class: "field" }, h("label", { for: "kind" }, w.kinds.title), kinds),
      pull || drawers ? pick([...runner, "kind"], w.runner.kind, Object.entries(w.runner.kinds), w.runner.kindHint) : null,
      drawers ? count(["build", "drawers", "count"], w.box.drawers) : null,
      drawers && !doors && !shelves ? pick(["build", "drawers", "fronts"], w.box.fronts, Object.entries(w.box.graded)) : null,
      doors ? pick(["build", "doors", "count"], w.doors.doors, numbered(w.doors.count)) : null,
      doors && valueAt(app.state().scenario, ["build", "doors", "count"]) !== 2 ? pick(["build", "doors", "hung"], w.doors.hung, Object.entries(w.doors.sides)) : null,
      shelves ? count(["build", "shelves", "count"], w.shelves.shelves) : null,
      shelves ? pick(["build", "shelves", "fixing"], w.shelves.fixing, Object.entries(w.shelves.fixings)) : null,
      has("build", "dividers") ? count(["build", "dividers", "count"], w.shelves.dividers) : null,
      sheet([...carcass, "material"], w.carcass.material),
      pull || drawers ? sheet([...boxes, "material"], w.box.material) : null,
      pull ? length(["build", "pull_out", "side_height"], w.box.sideHeight) : null,
      length([...carcass, "toe_height"], w.carcass.toeHeight),
      pull && front ? pick(["build", "front", "style"], w.front.style, Object.entries(w.front.styles)) : null,
      front ? pick(["build", "front", "mount"], w.front.mount, Object.entries(w.front.mounts)) : null,
      people,
    ),
    h(
      "details",
      { class: "more" },
      h("summary", {}, w.size.groups.others),
      group(
        w.size.groups.carcass,
        length([...carcass, "width"], w.carcass.width, w.form.follows),
        length([...carcass, "height"], w.carcass.height, w.form.follows),
        length([...carcass, "depth"], w.carcass.depth, w.form.follows),
        length([...carcass, "side_gap"], w.carcass.sideGap),
        length([...carcass, "top_gap"], w.carcass.topGap),
        pick([...carcass, "joint"], w.carcass.joint, Object.entries(w.carcass.joints)),
        length([...carcass, "dado_depth"], w.carcass.dadoDepth),
        pick([...carcass, "glue"], w.carcass.glue, [[true, w.carcass.glued], [false, w.carcass.screwed]]),
        pick([...carcass, "foot"], w.carcass.foot, Object.entries(w.carcass.feet)),
        length([...carcass, "toe_recess"], w.carcass.toeRecess),
        pick([...carcass, "top"], w.carcass.top, Object.entries(w.carcass.tops)),
        length([...carcass, "stretcher_width"], w.carcass.stretcher),
        length([...carcass, "nailer_height"], w.carcass.nailer),
        add(field(app, { path: ["build", "banding", "thickness"], section: ["build", "banding"], label: w.carcass.banding, type: "length", placeholder: w.carcass.bare })),
      ),
      group(
        w.size.groups.back,
        sheet(["build", "back", "material"], w.back.material),
        pick(["build", "back", "set"], w.back.set, Object.entries(w.back.sets)),
        pick(["build", "back", "pieces"], w.back.pieces, numbered(w.back.count)),
        pick(["build", "back", "seam"], w.back.seam, Object.entries(w.back.seams)),
      ),
      pull || drawers
        ? group(
            w.size.groups.box,
            sheet([...boxes, "bottom_material"], w.box.bottom),
            drawers ? length([...boxes, "side_height"], w.box.highest) : null,
            length([...boxes, "groove_depth"], w.box.groove),
            length([...boxes, "bottom_recess"], w.box.recess),
            length([...runner, "inside_deduction"], w.runner.deduction),
            length([...runner, "side_limit"], w.runner.limit),
            length([...runner, "notch_width"], w.runner.notchWidth),
            length([...runner, "notch_height"], w.runner.notchHeight),
            length([...runner, "thickness"], w.runner.thickness),
            length([...runner, "height"], w.runner.height),
            length([...runner, "under"], w.runner.under),
            length([...runner, "travel"], w.runner.travel, w.runner.whole),
            add(field(app, { path: [...runner, "rating_kg"], label: w.runner.rating, type: "number", unit: "kg", placeholder: w.runner.unknown })),
            h("p", { class: "hint" }, w.runner.hint),
          )
        : null,
      drawers
        ? group(w.size.groups.drawers, ...Array.from({ length: Number(valueAt(app.state().scenario, ["build", "drawers", "count"]) ?? 1) || 1 }, (_, i) =>
            length(["build", "drawers", "heights", i], w.box.frontNo(i + 1), w.form.follows)))
        : null,
      doors
        ? group(
            w.size.groups.hinges,
            count(["build", "doors", "hinges"], w.doors.hinges),
            length(["build", "doors", "hinge_inset"], w.doors.inset),
            length(["build", "doors", "cup"], w.doors.cup),
            length(["build", "doors", "cup_depth"], w.doors.cupDepth),
            length(["build", "doors", "cup_edge"], w.doors.cupEdge),
            length(["build", "doors", "plate_row"], w.doors.plate),
            h("p", { class: "hint" }, w.doors.hint),
          )
        : null,
      shelves
        ? group(
            w.size.groups.shelves,
            sheet(["build", "shelves", "material"], w.shelves.material),
            length(["build", "shelves", "setback"], w.shelves.setback),
            length(["build", "shelves", "pitch"], w.shelves.pitch),
            length(["build", "shelves", "row_inset"], w.shelves.inset),
            length(["build", "shelves", "hole"], w.shelves.hole),
            length(["build", "shelves", "play"], w.shelves.play),
          )
        : null,
      front
        ? group(
            w.size.groups.front,
            sheet(["build", "front", "material"], w.front.material),
            length(["build", "front", "reveal"], w.front.reveal),
            length(["build", "front", "handle"], w.front.handle),
            pull ? length(["build", "front", "drawer_height"], w.front.upper) : null,
          )
        : null,
      group(w.size.groups.sheets, ...sheets.map(([, name], i) => length(["shop", "materials", i, "thickness"], w.shop.thickness(name)))),
      group(w.size.groups.shop, ...shop),
      group(
        w.size.groups.figures,
        pick(["unit"], w.shop.plain, Object.entries(w.shop.units)),
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
    h("thead", {}, h("tr", {}, h("th", { scope: "col" }, w.size.heads.what), h("th", { scope: "col", class: "number" }, w.size.heads.size))),
    h(
      "tbody",
      {},
      ...sizes.map((row) =>
        h(
          "tr",
          {},
          h(
            "th",
            { scope: "row", lang: CORE },
            row.why ? h("details", {}, h("summary", {}, row.label), h("p", { class: "quiet" }, fractions(row.why))) : row.label,
          ),
          h("td", { class: "number", lang: CORE }, fractions(row.text)),
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
    ...(others.length > 0 ? [table(others, w.size.follow)] : []),
    ...(parts.length > 0 ? [h("details", { class: "more" }, h("summary", {}, w.size.all(parts.length)), table(parts, w.size.listed))] : []),
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
    const found = h("section", { "aria-label": w.size.remarks });
    const sizes = h("div", {});
    const sheets = h("div", { class: "size-drawings" });
    const view = h("div", { class: "finished", "data-scrolls": true });
    const variants = h("div", {});
    const undo = h("button", { type: "button", onclick: () => app.undo() }, w.size.undo);
    const redo = h("button", { type: "button", onclick: () => app.redo() }, w.size.redo);
    const keep = h("button", { type: "button", onclick: () => hold() }, w.size.keep);
    const drop = h("button", { type: "button", onclick: () => hold(true) }, w.size.drop);
    const bar = h("div", { class: "size-bar" }, undo, redo, keep, drop);
    const list = partDrawings(app);
    const follows = h("div", { class: "follows" }, found, variants, sizes, list.element);
    root.append(h("h1", {}, w.stages.size), bar, h("div", { class: "two sizing" }, h("div", { class: "seen" }, view, sheets), form, follows));
    view.append(app.picture.figure);

    /** Keeps what is sized now beside what will be, or lets go of it. */
    function hold(off = false) {
      const { draft } = app.state();
      kept = off || draft === null ? null : { name: w.compare.kept, draft, cutting: cuttingNow(app.state()) };
      beside();
    }
    function beside() {
      const state = app.state();
      const { draft } = state;
      // What was kept while it was planned has its plan now.
      if (kept && kept.draft === draft) kept.cutting ??= cuttingNow(state);
      drop.hidden = kept === null;
      keep.textContent = kept === null ? w.size.keep : w.size.keepThis;
      variants.replaceChildren(...(kept && draft ? [compare(kept, { name: w.compare.now, draft, cutting: cuttingNow(state) }, notationOf(state))] : []));
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
          app.picture.finished(w.size.finished(plan.title));
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
          const judged = checked(app, findings.filter((finding) => finding.stage === "size" || (finding.accepted && finding.stage === undefined)), w.remark.checks);
          found.replaceChildren(
            ...(own.length > 0 ? [remarks(own)] : []),
            ...(judged ? [judged] : []),
            own.length > 0 || judged ? "" : h("p", { class: "quiet" }, w.size.fine),
          );
        }
      },
    };
  },
};
