// The steps at the saw, to be ticked off.
import { fractions, h } from "./dom.js";
import { glyph } from "./glyphs.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Cutting} Cutting */

/** What a step is done with. @type {Record<string, string>} */
const TOOLS = {
  "track-saw": "Track saw",
  sled: "Table saw, sled",
  fence: "Table saw, fence",
  "dado-or-router": "Dado set or router",
  jigsaw: "Jigsaw or band saw",
};

/**
 * @param {App} app
 * @param {Cutting} cutting
 * @param {number[]} done
 */
export function sawSteps(app, cutting, done) {
  return h(
    "ol",
    { class: "saw-steps" },
    ...cutting.steps.map((step) => {
      const box = h("input", { type: "checkbox", checked: done.includes(step.n), onchange: () => app.tickStep(step.n, box.checked) });
      return h(
        "li",
        { value: step.n },
        h(
          "label",
          { class: "saw-step" },
          box,
          h("span", { class: "saw-n" }, `${step.n}`),
          h("span", {}, h("span", { class: "quiet saw-tool" }, TOOLS[step.tool] ?? step.tool), h("span", { class: "saw-text" }, fractions(step.text))),
        ),
        ...(step.cautions ?? []).map((text) => h("p", { class: "remark", "data-severity": "caution" }, glyph("caution"), h("span", {}, fractions(text)))),
      );
    }),
  );
}

/** Parts that have their size once the ticked steps are done.
 * @param {Cutting} cutting
 * @param {number[]} done */
export function madeBy(cutting, done) {
  return new Set(cutting.steps.filter((step) => step.work === "cut" && done.includes(step.n)).flatMap((step) => step.parts ?? []));
}
