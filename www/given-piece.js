// A piece that its file gives part by part: what is in it, as it stands in the file.
import { fractions, h } from "./dom.js";
import { plainUnit } from "./scenario-form.js";
import { listOf, typed, valueAt } from "./scenario.js";

/** @typedef {import("./types").State} State */

/** @param {State} state */
export const isGiven = (state) => valueAt(state.scenario, ["piece"]) !== undefined;

/** @param {State} state */
export function givenParts(state) {
  const parts = listOf(valueAt(state.scenario, ["piece", "parts"]));
  const sheets = new Map(
    listOf(valueAt(state.scenario, ["shop", "materials"])).map((sheet) => {
      const id = typed(valueAt(sheet, ["id"]));
      return [id, typed(valueAt(sheet, ["name"])) || id];
    }),
  );
  const unit = plainUnit(state);
  // A figure with its own unit keeps it; a plain one is in the file's.
  const said = (/** @type {import("./types").Json | undefined} */ list) => listOf(list).map(typed).join(" × ");
  return h(
    "section",
    { "aria-label": "Parts as given" },
    h("p", { class: "hint" }, "This piece is given part by part in its file. To change a size, save the file, change it there and open it again."),
    h(
      "table",
      { class: "parts given" },
      h("caption", {}, "Parts as given"),
      h(
        "thead",
        {},
        h(
          "tr",
          {},
          h("th", { scope: "col" }, "Part"),
          h("th", { scope: "col", class: "number" }, `Wide × deep × high, ${unit}`),
          h("th", { scope: "col", class: "extra" }, "Sheet"),
        ),
      ),
      h(
        "tbody",
        {},
        ...parts.map((part) => {
          const id = typed(valueAt(part, ["id"]));
          const sheet = typed(valueAt(part, ["material"]));
          return h(
            "tr",
            {},
            h("th", { scope: "row" }, typed(valueAt(part, ["name"])) || id.replaceAll("-", " ")),
            h("td", { class: "number" }, fractions(said(valueAt(part, ["size"])))),
            h("td", { class: "extra" }, fractions(sheets.get(sheet) ?? sheet)),
          );
        }),
      ),
    ),
  );
}
