// The steps at the saw, to be ticked off.
import { fractions, h, keep } from "./dom.js";
import { remark } from "./remarks.js";
import { CORE, w } from "./words.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Cutting} Cutting */

/** What a step is done with. @type {Record<string, string>} */
const TOOLS = w.cut.tools;

/**
 * The steps, each with its box. A step stays in place while nothing in it changes.
 * @param {App} app
 */
export function sawSteps(app) {
  const element = h("ol", { class: "saw-steps" });
  const item = (/** @type {Cutting["steps"][number]} */ step) => {
    const box = h("input", { type: "checkbox", onchange: () => app.tickStep(step.n, box.checked) });
    return h(
      "li",
      { value: step.n },
      h(
        "label",
        { class: "saw-step" },
        box,
        h("span", { class: "saw-n" }, `${step.n}`),
        h("span", {}, h("span", { class: "quiet saw-tool" }, TOOLS[step.tool] ?? step.tool), h("span", { class: "saw-text", lang: CORE }, fractions(step.text))),
      ),
      ...(step.cautions ?? []).map((text) => remark("caution", h("span", { lang: CORE }, fractions(text)))),
    );
  };
  return {
    element,
    /**
     * @param {Cutting} cutting
     * @param {number[]} done
     */
    update(cutting, done) {
      keep(element, cutting.steps.map((step) => [JSON.stringify(step), () => item(step)]));
      [...element.querySelectorAll("input")].forEach((box, i) => (box.checked = done.includes(cutting.steps[i]?.n ?? 0)));
    },
  };
}

/** Parts that have their size once the ticked steps are done.
 * @param {Cutting} cutting
 * @param {number[]} done */
export function madeBy(cutting, done) {
  return new Set(cutting.steps.filter((step) => step.work === "cut" && done.includes(step.n)).flatMap((step) => step.parts ?? []));
}
