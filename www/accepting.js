// Remarks of the checks, each to be accepted with a reason, which stays in the scenario file.
import { fractions, h } from "./dom.js";
import { glyph } from "./glyphs.js";
import { SAID } from "./remarks.js";
import { listOf, valueAt } from "./scenario.js";
import { CORE, w } from "./words.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Finding} Finding */
/** @typedef {import("./types").StageName} StageName */

/**
 * What the checks say at a stage.
 * @param {import("./types").Outcome | null} outcome
 * @param {StageName} stage
 */
export const checkedAt = (outcome, stage) => (outcome?.findings ?? []).filter((finding) => finding.stage === stage);

/**
 * @param {App} app
 * @param {Finding} finding
 * @param {string | undefined} reason nothing takes the entry out again
 */
function write(app, finding, reason) {
  const kept = listOf(valueAt(app.state().scenario, ["accepted"])).filter(
    (entry) => valueAt(entry, ["code"]) !== finding.code || valueAt(entry, ["where"]) !== finding.where,
  );
  const all = reason === undefined ? kept : [...kept, { code: finding.code, where: finding.where, reason }];
  app.edit(["accepted"], all.length > 0 ? all : undefined);
}

/**
 * A box for the reason, behind one line.
 * @param {App} app
 * @param {Finding} finding
 */
function accept(app, finding) {
  const input = h("input", { type: "text", class: "words", maxlength: 200, required: true, autocomplete: "off" });
  return h(
    "details",
    { class: "accept" },
    h("summary", {}, w.remark.accept),
    h(
      "form",
      {
        onsubmit: (/** @type {Event} */ event) => {
          event.preventDefault();
          const reason = input.value.trim();
          if (reason) write(app, finding, reason);
        },
      },
      h("label", {}, h("span", {}, w.remark.why), input),
      h("button", { type: "submit" }, w.remark.confirm),
    ),
  );
}

/**
 * @param {App} app
 * @param {Finding} finding
 */
function item(app, finding) {
  const sign = finding.accepted ? "check" : finding.severity;
  return h(
    "li",
    { class: "remark", "data-severity": finding.accepted ? "accepted" : finding.severity },
    glyph(sign),
    h(
      "div",
      {},
      h("strong", {}, finding.accepted ? w.remark.accepted : `${SAID[finding.severity]}. `),
      h("span", { lang: CORE }, fractions(finding.message)),
      " ",
      finding.accepted
        ? h("span", { class: "quiet" }, w.remark.reason(finding.accepted))
        : h("span", { class: "quiet", lang: CORE }, fractions(finding.hint)),
      finding.accepted
        ? h("button", { type: "button", class: "plain", onclick: () => write(app, finding, undefined) }, w.remark.back)
        : finding.severity === "stop"
          ? null
          : accept(app, finding),
    ),
  );
}

/**
 * A list of remarks; what is accepted comes last.
 * @param {App} app
 * @param {Finding[]} findings
 * @param {string} label
 */
export function checked(app, findings, label) {
  const sorted = [...findings.filter((finding) => !finding.accepted), ...findings.filter((finding) => finding.accepted)];
  return sorted.length > 0 ? h("ul", { class: "remarks", "aria-label": label }, ...sorted.map((finding) => item(app, finding))) : null;
}
