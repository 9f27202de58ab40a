// Numbers: every check that was run, with formula, inputs and source, so that it can be followed.
import { checked } from "../accepting.js";
import { fractions, h } from "../dom.js";
import { emptied } from "../empty.js";
import { CORE, w } from "../words.js";

/** @typedef {import("../types").CheckRow} CheckRow */
/** @typedef {import("../types").Theme} Theme */

/** In the order in which a maker asks. */
const THEMES = /** @type {[Theme, string][]} */ (Object.entries(w.numbers.themes));

/** What a cell is called where the head of the table has no room. @param {number} column */
const head = (column) => `${w.numbers.heads[column] ?? ""}: `;

/**
 * @param {CheckRow} row
 * @param {number} source
 */
function line(row, source) {
  const verdict = row.passed === undefined ? "" : row.passed ? w.numbers.passes : w.numbers.look;
  return h(
    "tr",
    { "data-passed": row.passed === undefined ? null : String(row.passed) },
    h(
      "th",
      { scope: "row" },
      h("span", { lang: CORE }, fractions(row.what)),
      row.step ? h("span", { class: "quiet" }, ` ${w.numbers.atStep(row.step)}`) : null,
      h("span", { class: "formula" }, h("span", { lang: CORE }, row.formula), h("span", { class: "quiet" }, ` ${w.numbers.source(source)}`)),
      row.inputs.length > 0
        ? h("span", { class: "quiet inputs", lang: CORE }, fractions(row.inputs.map((input) => `${input.name}: ${input.value}`).join("; ")))
        : null,
    ),
    h("td", { "data-head": head(1), lang: CORE }, fractions(row.result)),
    h("td", { "data-head": head(2), lang: CORE }, fractions(row.limit ?? "")),
    h("td", { class: "judged" }, verdict),
  );
}

/**
 * @param {string} title
 * @param {CheckRow[]} rows
 */
function theme(title, rows) {
  const sources = [...new Set(rows.map((row) => row.source))];
  return h(
    "section",
    {},
    h(
      "table",
      { class: "numbers" },
      h("caption", {}, title),
      h("thead", {}, h("tr", {}, ...w.numbers.heads.map((text) => h("th", { scope: "col" }, text)))),
      h("tbody", {}, ...rows.map((row) => line(row, sources.indexOf(row.source) + 1))),
    ),
    h("ol", { class: "sources quiet", "aria-label": w.numbers.sources(title) }, ...sources.map((source) => h("li", { lang: CORE }, source))),
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
    const empty = emptied(w.numbers.none, w.numbers.coming);
    root.append(
      h("h1", {}, w.stages.numbers),
      h(
        "p",
        {},
        h("strong", {}, w.numbers.claim),
        w.numbers.first,
      ),
      h(
        "p",
        { class: "quiet" },
        w.numbers.grades,
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
        count.textContent = w.numbers.count(checks.length, judged.length, open);
        const list = checked(app, findings.filter((finding) => finding.stage !== undefined), w.remark.checks);
        found.replaceChildren(...(list ? [h("h2", {}, w.remark.checks), list] : []));
        tables.replaceChildren(
          ...THEMES.map(([name, title]) => ({ title, rows: checks.filter((row) => row.theme === name) }))
            .filter(({ rows }) => rows.length > 0)
            .map(({ title, rows }) => theme(title, rows)),
        );
      },
    };
  },
};
