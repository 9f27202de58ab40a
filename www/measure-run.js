// A wall shared with bought units: what is given, and the best ways to fill it.
import { fractions, h } from "./dom.js";
import { strip } from "./drawing-gap.js";
import { leavingOut, pruning, relist } from "./editing.js";
import { fineOf, print } from "./lengths.js";
import { fold } from "./measure-form.js";
import { choice, field, notationOf, remover } from "./scenario-form.js";
import { listOf, typed, valueAt } from "./scenario.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./scenario-form.js").Field} Field */
/** @typedef {[string, string][]} Options */

/** @type {Options} */
const ENDS = [["wall", "a wall"], ["open", "nothing"]];

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
    "A run of cabinets",
    wall ? `on a wall of ${wall}` : "bought units and this one on one wall",
    wall !== "",
    h("p", { class: "hint" }, "Give the wall, and see which bought widths leave which place for this piece."),
    h("div", { class: "row" }, length(["wall"], "Wall", ""), add(field(app, { path: ["run", "count"], label: "How many bought", type: "number", placeholder: "any" }))),
    h("div", { class: "row" }, length(["step"], "Widths sold in steps of", inch ? "3" : "50"), length(["least"], "from", inch ? "9" : "300"), length(["most"], "to", inch ? "36" : "900")),
    h("div", { class: "row" }, length(["custom", "least"], "This piece from", inch ? "12" : "300"), length(["custom", "most"], "to", inch ? "36" : "900"), length(["custom", "wish"], "best near", "any")),
    h(
      "div",
      { class: "row" },
      length(["filler_least"], "Filler from", inch ? "3/4" : "20"),
      length(["filler_most"], "to", inch ? "3" : "75"),
    ),
    h("div", { class: "row" }, add(choice(app, { path: ["run", "left"], label: "Its left end meets", options: ENDS })), add(choice(app, { path: ["run", "right"], label: "Its right end meets", options: ENDS }))),
    ...wanted.map((_, i) =>
      h(
        "div",
        { class: "row" },
        add(field(app, { path: ["run", "wanted", i, "width"], label: "A unit that must be there", type: "length" })),
        add(field(app, { path: ["run", "wanted", i, "count"], label: "How many", type: "number", placeholder: "1" })),
        remover(() => relist(app, ["run", "wanted"], leavingOut(i)), `wanted unit ${i + 1}`),
      ),
    ),
    wall ? h("button", { type: "button", class: "plain", onclick: () => relist(app, ["run", "wanted"], (all) => [...all, { count: 1 }]) }, "Add a unit that must be there") : null,
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
    h("p", {}, h("strong", {}, `${i + 1}. `), fractions(fill.text)),
    strip(fill),
    h("p", { class: "hint" }, fractions(`${fill.why}.`)),
    h(
      "button",
      {
        type: "button",
        onclick: () => relist(app, ["space", "widths"], () => [{ at: "0", width }]),
        "aria-label": `Use way ${i + 1}: an opening of ${width}`,
      },
      fractions(`Use it: opening ${width}`),
    ),
  );
}
