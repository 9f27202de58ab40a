// What is said of a piece by the core or by the page: a sign, a grade, a sentence and its cure.
import { fractions, h } from "./dom.js";
import { inWords } from "./field-words.js";
import { glyph } from "./glyphs.js";
import { CORE, w } from "./words.js";

/** @typedef {import("./types").Finding} Finding */
/** @typedef {import("./types").Severity} Severity */

/** How each grade is said. */
export const SAID = w.remark.said;

/**
 * A remark that stands alone.
 * @param {Severity} severity
 * @param {...(Node | string)} words
 */
export const remark = (severity, ...words) => h("p", { class: "remark", "data-severity": severity }, glyph(severity), h("span", {}, ...words));

/**
 * What is said of one field or group, beside it.
 * @param {Finding[]} findings
 */
export const beside = (findings) =>
  findings.map(({ severity, where, message, hint }) => remark(severity, h("span", { lang: CORE }, fractions(inWords(message, where)), " ", fractions(inWords(hint, where)))));

/**
 * Remarks as a list, most serious first as they come.
 * @param {Finding[]} findings
 */
export function remarks(findings) {
  return h(
    "ul",
    { class: "remarks" },
    ...findings.map(({ severity, message, hint }) =>
      h(
        "li",
        { class: "remark", "data-severity": severity },
        glyph(severity),
        h("span", {}, h("strong", {}, `${SAID[severity]}. `), h("span", { lang: CORE }, fractions(message), " ", h("span", { class: "quiet" }, fractions(hint)))),
      ),
    ),
  );
}
