// Buttons that start the clocks of a step with glue.
import { h } from "../dom.js";
import { glyph } from "../glyphs.js";
import { bodyName, partName } from "../plan.js";
import { w } from "../words.js";

/** @typedef {import("../types").Plan} Plan */

/**
 * @param {Plan} plan
 * @param {import("../types").Step} step
 * @param {ReturnType<typeof import("./clocks.js").clocks>} running
 */
export function clockStart(plan, step, running) {
  const glue = plan.workshop.glue ?? { open: 5, closed: 10, clamp: 30 };
  const glued = plan.joints.filter((joint) => joint.glue && step.joints.includes(joint.id));
  const start = (/** @type {import("../bench/clocks.js").Phase} */ phase, /** @type {typeof glue} */ minutes, /** @type {string} */ what) =>
    h("button", { type: "button", class: "start-clock", onclick: () => running.begin(phase, minutes, what) }, glyph("clock"), h("span", {}, w.clocks.start[phase](minutes[phase])));
  if (step.action === "wait") {
    return start("clamp", { ...glue, clamp: step.minutes }, bodyName(plan, step.body));
  }
  if (step.action === "unclamp") {
    const left = running.curing();
    return left === "" ? null : h("p", { class: "note", "data-kind": "caution" }, glyph("caution"), h("span", {}, w.clocks.notYet(left)));
  }
  const [first] = glued;
  if (!first || !["place", "drive", "hang"].includes(step.action)) return null;
  return start("open", glue, first.parts.map((id) => partName(plan, id)).join(", "));
}
