// Numbers: every check that was run, with formula, inputs and source, so that it can be followed.
import { checked } from "../accepting.js";
import { fractions, h } from "../dom.js";
import { emptied } from "../empty.js";

/** @typedef {import("../types").CheckRow} CheckRow */
/** @typedef {import("../types").Theme} Theme */

/** @type {[Theme, string][]} In the order in which a maker asks. */
const THEMES = [
  ["fit", "The opening"],
  ["panels", "Panels"],
  ["screws", "Screws"],
  ["pull-out", "What slides out"],
  ["fronts", "Fronts and doors"],
  ["tip-over", "Tipping over"],
  ["lifting", "Lifting"],
  ["install", "Fixing in the room"],
  ["materials", "Dust, vapours, glue"],
  ["tolerance", "How much may be off"],
];

/**
 * @param {CheckRow} row
 * @param {number} source
 */
function line(row, source) {
  const verdict = row.passed === undefined ? "" : row.passed ? "passes" : "look here";
  const step = row.step ? ` At step ${row.step}.` : "";
  return h(
    "tr",
    { "data-passed": row.passed === undefined ? null : String(row.passed) },
    h(
      "th",
      { scope: "row" },
      fractions(row.what),
      step ? h("span", { class: "quiet" }, step) : null,
      h("span", { class: "formula" }, row.formula, h("span", { class: "quiet" }, ` Source ${source}.`)),
      row.inputs.length > 0
        ? h("span", { class: "quiet inputs" }, fractions(row.inputs.map((input) => `${input.name}: ${input.value}`).join("; ")))
        : null,
    ),
    h("td", {}, fractions(row.result)),
    h("td", {}, fractions(row.limit ?? "")),
    h("td", { class: "judged" }, verdict),
  );
}

/**
 * @param {string} title
 * @param {CheckRow[]} rows
 */
function theme(title, rows) {
  const sources = [...new Set(rows.map((row) => row.source))];
  const cells = ["Check", "Result", "Allowed", "Verdict"];
  return h(
    "section",
    {},
    h(
      "table",
      { class: "numbers" },
      h("caption", {}, title),
      h("thead", {}, h("tr", {}, ...cells.map((text) => h("th", { scope: "col" }, text)))),
      h("tbody", {}, ...rows.map((row) => line(row, sources.indexOf(row.source) + 1))),
    ),
    h("ol", { class: "sources quiet", "aria-label": `Sources: ${title}` }, ...sources.map((source) => h("li", {}, source))),
  );
}

/** @type {import("../types").Stage} */
export const stage = {
  mount(root, app) {
    /** @type {unknown} */
    let shown = null;
    const count = h("p", {});
    const found = h("div", {});
    const tables = h("div", {});
    const empty = emptied("No checks yet. ", "Running the checks.");
    root.append(
      h("h1", {}, "Numbers"),
      h(
        "p",
        {},
        h("strong", {}, "Checks of your own work: no ratings, and no claim that anything complies with a standard. "),
        "Local codes and a licensed person come first.",
      ),
      h(
        "p",
        { class: "quiet" },
        "Behind a source: read, it was seen there; quoted, it was seen where another quotes it; from memory, look it up before you rely on it; worked out, it follows from the formula.",
      ),
      empty.element,
      count,
      found,
      tables,
    );
    return {
      update(state) {
        empty.update(state);
        if (!state.outcome || shown === state.outcome) return;
        shown = state.outcome;
        const { checks, findings } = state.outcome;
        const judged = checks.filter((row) => row.passed !== undefined);
        const open = judged.filter((row) => !row.passed).length;
        count.hidden = checks.length === 0;
        count.textContent = `${checks.length} numbers, ${judged.length} of them with a limit; ${open === 0 ? "all of these pass" : `${open} to look at`}.`;
        const list = checked(app, findings.filter((finding) => finding.stage !== undefined), "What the checks say");
        found.replaceChildren(...(list ? [h("h2", {}, "What the checks say"), list] : []));
        tables.replaceChildren(
          ...THEMES.map(([name, title]) => ({ title, rows: checks.filter((row) => row.theme === name) }))
            .filter(({ rows }) => rows.length > 0)
            .map(({ title, rows }) => theme(title, rows)),
        );
      },
    };
  },
};
