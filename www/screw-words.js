// The screws of a step in words: which, how many, where, and with what.
import { HARD, difficulty, driven } from "./difficulty.js";
import { fractions, h } from "./dom.js";
import { glyph } from "./glyphs.js";
import { fineOf, print } from "./lengths.js";
import { note } from "./note.js";
import { countScrews, fastenersById } from "./parts.js";
import { nameOf } from "./plan.js";
import { w } from "./words.js";

/** @typedef {import("./types").Plan} Plan */
/** @typedef {import("./types").Step} Step */

/**
 * @param {Plan} plan
 * @param {Step} step
 */
export function screws(plan, step) {
  const byId = fastenersById(plan);
  const now = step.fasteners.flatMap((id) => byId.get(id) ?? []);
  if (now.length === 0) return null;
  return h(
    "ul",
    { class: "screws", "data-screws": true, "aria-label": w.step.screws },
    ...countScrews(now).map((screw) =>
      h(
        "li",
        { "data-kind": screw.kind, "data-gauge": screw.gauge, "data-length": screw.length, "data-count": screw.count },
        glyph(screw.kind.startsWith("pan") ? "screw-pan" : "screw-flat"),
        h("span", { class: "vh" }, `${screw.kind} `),
        h("span", { class: "screw-size" }, fractions(`#${screw.gauge} × ${print(screw.length, plan.unit)}`)),
        h("strong", { class: "screw-count" }, `× ${screw.count}`),
        h("span", { class: "pilot quiet" }, `${w.step.pilot} `, fractions(print(screw.pilot, fineOf(plan.unit)))),
      ),
    ),
  );
}

/**
 * Lines to draw for screws into what lies hidden: a maker needs them at the panel.
 * @param {Plan} plan
 * @param {Step} step
 */
export function screwLines(plan, step) {
  const lines = step.lines ?? [];
  const [first] = lines;
  if (!first) return null;
  const all = shares(plan, step);
  const alone = lines.every((line) => line.part === first.part);
  /** One line, the figure first. @param {import("./types").ScrewLine} line */
  const item = ({ part, behind, edge, distance }) => {
    const share = all.find(({ into }) => into.includes(behind));
    const hidden = share ? w.step.atJoint(nameOf(plan, behind), share.screws) : nameOf(plan, behind);
    const said = alone ? w.step.lineFrom(edge, hidden) : w.step.lineFromOf(edge, nameOf(plan, part), hidden);
    return h("li", {}, h("strong", {}, fractions(print(distance, plan.unit))), ` ${said}`);
  };
  // What is said of each line is said once.
  const tips = [...new Set(lines.flatMap(({ tip }) => tip || []))];
  return h(
    "div",
    { class: "lines note", "data-kind": "lines" },
    glyph("line"),
    h(
      "div",
      {},
      h("strong", {}, w.step.drawLines(lines.length, alone ? nameOf(plan, first.part) : "")),
      h("ul", { "aria-label": w.step.lines }, ...lines.map(item)),
      tips.length > 0 ? h("p", { class: "quiet" }, fractions(tips.join(" "))) : null,
    ),
  );
}

/**
 * Screws that the drill does not reach.
 * @param {Step} step
 */
export function drivers(step) {
  return (step.drivers ?? []).map(({ tool, fasteners }) => {
    const all = fasteners.length >= step.fasteners.length;
    const which = all ? w.step.driverAll : w.step.driverSome(fasteners.length, step.fasteners.length);
    return note("driver", "driver", h("strong", {}, `${tool.charAt(0).toUpperCase()}${tool.slice(1)}: `), which);
  });
}

/**
 * Of a step with much in it: how its screws are shared out, joint by joint, by the part that each goes into.
 * What has a line to draw is counted there.
 * @param {Plan} plan
 * @param {Step} step
 */
export function jointByJoint(plan, step) {
  const lined = new Set((step.lines ?? []).map((line) => line.behind));
  const joints = shares(plan, step).filter(({ into }) => !into.some((id) => lined.has(id)));
  if (joints.length === 0) return null;
  const item = (/** @type {typeof joints[number]} */ { into: [one = "", other], screws }) =>
    w.step.atJoint(other === undefined ? nameOf(plan, one) : w.step.to(nameOf(plan, one), nameOf(plan, other)), screws);
  return note("screw-flat", "joints", h("strong", {}, w.step.jointByJoint), ` ${joints.map(item).join(", ")}.`);
}

/**
 * The joints of a step that is hard, each by the parts that were there before; none of one that is not.
 * @param {Plan} plan
 * @param {Step} step
 */
function shares(plan, step) {
  const joints = driven(plan, step);
  if (joints.length < 2 || difficulty(plan, step) <= HARD) return [];
  return joints.map(({ parts, screws }) => {
    const there = parts.filter((id) => !step.parts.includes(id));
    return { into: there.length > 0 ? there : [...parts], screws };
  });
}
