// One step in words: what to do, with which screws, what to hold, what to check.
import { fractions, h } from "./dom.js";
import { glyph } from "./glyphs.js";
import { fineOf, print, printMass } from "./lengths.js";
import { note } from "./note.js";
import { lookalikes } from "./parts.js";
import { bodyName, nameOf, sentencesOf } from "./plan.js";
import { drivers, jointByJoint, screwLines, screws } from "./screw-words.js";
import { CORE, w } from "./words.js";

/** @typedef {import("./types").Plan} Plan */
/** @typedef {import("./types").Step} Step */

/** A reason that is needed at the bench and stands on its own. */
const MEANWHILE = "meanwhile";

/**
 * A reason may come as a clause; here it stands alone.
 * @param {string} clause
 */
function sentence(clause) {
  const text = clause.charAt(0).toUpperCase() + clause.slice(1);
  return text === "" || /[.?]$/.test(text) ? text : `${text}.`;
}

/**
 * A set may be named by all its parts; above the sentence one of them is enough.
 * @param {string} name
 */
function shortened(name) {
  const parts = name.split(/, | and /);
  return name.length > 30 && parts.length > 1 ? `${parts[0]} and ${parts.length - 1} more` : name;
}

/**
 * @param {Plan} plan
 * @param {Step} step
 */
function lies(plan, step) {
  // What it carries is in the sentence and in the picture.
  const name = shortened(bodyName(plan, step.body).replace(/ with (its|\d+) .*$/, ""));
  // Only what has feet stands.
  if (step.bench_face === "-z" && step.body !== "main") return w.step.upright(name);
  const held = new Set(plan.steps.filter((one) => one.body === step.body).flatMap((one) => one.parts));
  const panels = plan.parts.filter((part) => part.kind === "panel" && held.has(part.id));
  // A lone panel lies on a face, a piece on one of its sides.
  return w.step.lies(name, step.bench_face, panels.length === 1);
}

/**
 * What to do stands large; how it is fastened, and what else belongs to it, stands under it.
 * @param {Step} step
 */
function sentences(step) {
  const { before, asked, after } = sentencesOf(step.text);
  const lead = [...before, asked].join(" ");
  const rest = after.join(" ");
  return h(
    "p",
    { class: "sentence", "data-step-text": true, lang: CORE },
    h("span", { class: "lead" }, fractions(lead)),
    rest === "" ? null : " ",
    rest === "" ? null : h("span", { class: "then" }, fractions(rest)),
  );
}

/**
 * Mass of what hangs together once the step is done.
 * @param {Plan} plan
 * @param {Step} step
 */
function massOf(plan, step) {
  /** @type {Map<string, number>} */
  const bodies = new Map();
  for (const past of plan.steps) {
    if (past.n > step.n) break;
    const parts = past.parts.reduce((sum, id) => sum + (plan.parts.find((part) => part.id === id)?.mass_g ?? 0), 0);
    const joined = past.joins === undefined ? 0 : (bodies.get(past.joins) ?? 0);
    bodies.set(past.body, (bodies.get(past.body) ?? 0) + parts + joined);
  }
  return bodies.get(step.body) ?? 0;
}

/**
 * @param {Plan} plan
 * @param {import("./types").ClampPlace} clamp
 */
const clampWords = (plan, clamp) => w.step.clamp(nameOf(plan, clamp.parts[0]), nameOf(plan, clamp.parts[1]), print(clamp.opening, plan.unit));

/**
 * Clamps that stay on from this step, and those that come off in it.
 * @param {Plan} plan
 * @param {Step} step
 */
function clamps(plan, step) {
  const list = (/** @type {string} */ head, /** @type {import("./types").ClampPlace[]} */ all) =>
    all.length === 0 ? null : note("clamp", "clamp", h("strong", {}, head), " ", fractions(`${all.map((one) => clampWords(plan, one)).join("; ")}.`));
  const now = step.clamps ?? [];
  const on = list(w.step.clampsOn(now.length), now);
  if (step.action !== "unclamp") return [on];
  /** @type {import("./types").ClampPlace[]} */
  let left = [];
  for (const past of plan.steps) {
    if (past.n >= step.n) break;
    if (past.body !== step.body) continue;
    if (past.action === "unclamp") left = [];
    left.push(...(past.clamps ?? []));
  }
  return [on, list(w.step.clampsOff, left)];
}

/**
 * How long glue cures, big, and what there is time for.
 * @param {Step} step
 */
function waiting(step) {
  if (step.action !== "wait") return null;
  const meanwhile = step.why.filter((reason) => reason.rule === MEANWHILE);
  return h(
    "div",
    { class: "wait" },
    h("p", { class: "minutes", "data-minutes": step.minutes }, glyph("clock"), h("strong", {}, w.step.minutes(step.minutes))),
    ...meanwhile.map((reason) => h("p", {}, fractions(reason.text))),
  );
}

/**
 * What was proved, and last what was not done instead.
 * @param {Step} step
 */
function why(step) {
  const reasons = step.why.filter((reason) => reason.rule !== MEANWHILE);
  const { instead } = step;
  if (reasons.length === 0 && !instead) return null;
  return h(
    "details",
    { class: "why" },
    h("summary", {}, w.step.why),
    h(
      "ul",
      { lang: CORE },
      ...reasons.map((reason) => h("li", {}, fractions(reason.text))),
      instead ? h("li", { class: "instead" }, h("strong", {}, instead.cost ? w.step.otherwise : w.step.notNow), fractions(instead.text)) : null,
    ),
  );
}

/**
 * Cautions of this step: what the core found, and the usual ones where the work first calls for them.
 * @param {Plan} plan
 * @param {Step} step
 */
function cautions(plan, step) {
  const out = plan.findings
    .filter((finding) => (finding.step === step.n || finding.where === `step ${step.n}`) && finding.severity !== "note" && !finding.accepted)
    .map((finding) => note("caution", "caution", h("span", { lang: CORE }, fractions(`${finding.message} ${finding.hint}`))));
  if (step.people > 1) out.unshift(note("helper", "caution", w.step.people(step.people)));
  if (step.action === "turn" || step.action === "bring-in") {
    out.push(note("caution", "caution", w.step.heavy(printMass(massOf(plan, step), plan.unit))));
  }
  const first = plan.steps.find((one) => one.fasteners.length > 0);
  if (first?.n === step.n) out.push(note("caution", "caution", w.step.eyes));
  return out;
}

/**
 * @param {Plan} plan
 * @param {Step} step
 */
function glue(plan, step) {
  if (step.action !== "place" && step.action !== "drive" && step.action !== "hang") return [];
  const glued = plan.joints.filter((joint) => joint.glue && step.joints.includes(joint.id));
  if (glued.length === 0) return [];
  const where = glued.map((joint) => w.step.to(nameOf(plan, joint.parts[0]), nameOf(plan, joint.parts[1]))).join("; ");
  const first = plan.steps.find((one) => one.joints.some((id) => plan.joints.some((joint) => joint.id === id && joint.glue)));
  const label = first?.n === step.n ? ` ${w.step.label}` : "";
  return [note("glue", "glue", `${w.step.glue(where)}${label}`)];
}

/**
 * @param {Plan} plan
 * @param {Step} step
 * @param {import("./types").Check} check
 * @returns {HTMLElement | null} nothing when the sentence has said it all
 */
function checkNote(plan, step, check) {
  // Nothing to read off a tape where two faces are level.
  const wanted = [...new Set(check.expected.filter((value) => value > 0).map((value) => print(value, plan.unit)))];
  const missing = wanted.filter((text) => !check.text.includes(text.replace(/ (in|mm)$/, "")));
  const said = check.text === step.text;
  if (said && missing.length === 0) return null;
  return note(
    "check",
    "check",
    said ? "" : fractions(check.text),
    ...(missing.length > 0 ? [h("span", { class: "wanted" }, fractions(missing.join(", ")))] : []),
  );
}

/**
 * Parts that are easily taken for the one that comes now.
 * @param {Plan} plan
 * @param {Step} step
 */
function twins(plan, step) {
  return step.parts.flatMap((id) => {
    const part = plan.parts.find((one) => one.id === id);
    const others = part ? lookalikes(plan, part) : [];
    return part && others.length > 0 ? [note("twin", "twin", w.step.twin(part.name, others.map((other) => other.name)))] : [];
  });
}

/**
 * The size of a spacer across its gap: of an offcut, or of a strip that is sawn for it, as sawn and not rounded.
 * @param {Plan} plan
 * @param {import("./types").Spacer} spacer
 */
function sizeOf(plan, spacer) {
  const isPart = plan.parts.some((part) => part.id === spacer.part);
  return print(spacer.dimension, isPart ? plan.unit : fineOf(plan.unit));
}

/**
 * The words of a step, in the order they are needed at the bench.
 * @param {Plan} plan
 * @param {Step} step
 * @returns {HTMLElement}
 */
export function stepWords(plan, step) {
  const spacer = step.spacer;
  return h(
    "div",
    { class: "step-words" },
    step.stage === "install" ? null : h("p", { class: "lies" }, glyph("bench"), h("span", { class: "where-it-lies" }, lies(plan, step))),
    sentences(step),
    ...twins(plan, step),
    waiting(step),
    screws(plan, step),
    jointByJoint(plan, step),
    ...drivers(step),
    screwLines(plan, step),
    ...step.hold.map((hold) =>
      note(
        hold.with,
        "hold",
        h("strong", {}, `${w.step.holds[hold.with]}: ${hold.name ?? nameOf(plan, hold.what)}. `),
        hold.clamp ? fractions(`${w.step.opening(print(hold.clamp.opening, plan.unit))} `) : "",
        fractions(sentence(hold.why)),
      ),
    ),
    spacer ? note("spacer", "hold", h("strong", {}, `${w.step.spacer}: ${nameOf(plan, spacer.part)}, `, fractions(sizeOf(plan, spacer)), ". "), fractions(w.step.sets(spacer.sets))) : null,
    ...glue(plan, step),
    ...clamps(plan, step),
    ...step.checks.map((check) => checkNote(plan, step, check)),
    ...cautions(plan, step),
    why(step),
  );
}
