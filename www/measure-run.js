// A wall shared with bought units: what is given, and the best ways to fill it.
import { fractions, h } from "./dom.js";
import { strip } from "./drawing-gap.js";
import { leavingOut, pruning, relist } from "./editing.js";
import { fineOf, print } from "./lengths.js";
import { fold } from "./measure-form.js";
import { choice, field, notationOf, remover } from "./scenario-form.js";
import { listOf, typed, valueAt } from "./scenario.js";
import { CORE, w } from "./words.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./scenario-form.js").Field} Field */

/**
 * @param {App} outer
 * @param {(made: Field) => HTMLElement} add
 */
export function run(outer, add) {
  const app = pruning(outer);
  const scenario = app.state().scenario;
  const wanted = listOf(valueAt(scenario, ["run", "wanted"]));
  const wall = typed(valueAt(scenario, ["run", "wall"]));
  const inch = typed(valueAt(scenario, ["unit"])) === "in";
  const length = (/** @type {import("./types").Path} */ path, /** @type {string} */ label, /** @type {string} */ placeholder) =>
    add(field(app, { path: ["run", ...path], label, type: "length", placeholder }));
  const ways = h("div", { class: "fillings" });
  /** @type {unknown} */
  let shown;
  add({
    element: ways,
    key: "run",
    update(state) {
      const found = state.outcome?.run ?? [];
      if (shown === state.outcome) return;
      shown = state.outcome;
      ways.replaceChildren(...found.map((fill, i) => way(app, fill, i, fineOf(notationOf(state)))));
    },
  });
  return fold(
    w.run.title,
    wall ? w.run.on(wall) : w.run.none,
    wall !== "",
    h("p", { class: "hint" }, w.run.hint),
    h("div", { class: "row" }, length(["wall"], w.run.wall, ""), add(field(app, { path: ["run", "count"], label: w.run.count, type: "number", placeholder: w.run.any }))),
    h("div", { class: "row" }, length(["step"], w.run.step, inch ? "3" : "50"), length(["least"], w.run.from, inch ? "9" : "300"), length(["most"], w.run.to, inch ? "36" : "900")),
    h("div", { class: "row" }, length(["custom", "least"], w.run.thisFrom, inch ? "12" : "300"), length(["custom", "most"], w.run.to, inch ? "36" : "900"), length(["custom", "wish"], w.run.wish, w.run.any)),
    h(
      "div",
      { class: "row" },
      length(["filler_least"], w.run.filler, inch ? "3/4" : "20"),
      length(["filler_most"], w.run.to, inch ? "3" : "75"),
    ),
    h("div", { class: "row" }, add(choice(app, { path: ["run", "left"], label: w.run.left, options: Object.entries(w.run.ends) })), add(choice(app, { path: ["run", "right"], label: w.run.right, options: Object.entries(w.run.ends) }))),
    ...wanted.map((_, i) =>
      h(
        "div",
        { class: "row" },
        add(field(app, { path: ["run", "wanted", i, "width"], label: w.run.wanted, type: "length" })),
        add(field(app, { path: ["run", "wanted", i, "count"], label: w.run.wantedCount, type: "number", placeholder: "1" })),
        remover(() => relist(app, ["run", "wanted"], leavingOut(i)), w.run.theWanted(i + 1)),
      ),
    ),
    wall ? h("button", { type: "button", class: "plain", onclick: () => relist(app, ["run", "wanted"], (all) => [...all, { count: 1 }]) }, w.run.addWanted) : null,
    ways,
  );
}

/**
 * One way, and a button that takes its place as the opening.
 * @param {App} app
 * @param {import("./types").Fill} fill
 * @param {number} i
 * @param {import("./types").Notation} notation that the opening is written in
 */
function way(app, fill, i, notation) {
  const width = print(fill.custom, notation);
  return h(
    "div",
    { class: "way" },
    h("p", {}, h("strong", {}, `${i + 1}. `), h("span", { lang: CORE }, fractions(fill.text))),
    strip(fill),
    h("p", { class: "hint", lang: CORE }, fractions(`${fill.why}.`)),
    h(
      "button",
      {
        type: "button",
        onclick: () => relist(app, ["space", "widths"], () => [{ at: "0", width }]),
        "aria-label": w.run.uses(i + 1, width),
      },
      fractions(w.run.use(width)),
    ),
  );
}
