// "Something is off": what was measured goes to the core as typed, what to do comes back.
import { fractions, h } from "../dom.js";
import { glyph } from "../glyphs.js";
import { fineOf, print } from "../lengths.js";
import { w } from "../words.js";

/** @typedef {import("../types").App} App */
/** @typedef {import("../types").Plan} Plan */
/** @typedef {import("../types").Check} Check */
/** @typedef {import("../types").Point} Point */
/** @typedef {{ label: string, fields: { label: string, wanted: string }[], ask: (values: string[]) => object }} Subject */

/**
 * From which corner to which a diagonal runs.
 * @param {[Point, Point]} line
 */
function cornerToCorner([p, q]) {
  const flat = [2, 1, 0].filter((axis) => p[axis] !== q[axis]);
  const corner = (/** @type {Point} */ at, /** @type {Point} */ other) =>
    w.off.corner(flat.map((axis) => w.off.ends[axis]?.[(at[axis] ?? 0) > (other[axis] ?? 0) ? 1 : 0] ?? ""));
  return w.off.fromTo(corner(p, q), corner(q, p));
}

/**
 * @param {Check} check
 * @param {number} i
 */
function lineName({ kind, between }, i) {
  const line = between[i];
  if (line && kind === "diagonals") return cornerToCorner(line);
  const middle = (/** @type {number} */ n, /** @type {number} */ axis) => (between[n]?.[0][axis] ?? 0) + (between[n]?.[1][axis] ?? 0);
  const last = between.length - 1;
  const axis = [0, 1, 2].find((one) => middle(0, one) !== middle(last, one));
  if (axis === undefined) return w.off.width;
  const high = 2 * middle(i, axis) > middle(0, axis) + middle(last, axis);
  return w.off.at(w.off.ends[axis]?.[high ? 1 : 0] ?? "");
}

/**
 * What may be measured, the nearest to the step first.
 * @param {Plan} plan
 * @param {number} n of the step on the bench
 * @returns {Subject[]}
 */
function subjects(plan, n) {
  const past = plan.steps.filter((step) => step.n <= n).reverse();
  const checks = past.flatMap((step) =>
    step.checks.flatMap((check, at) =>
      check.between.length === 0
        ? []
        : [
            {
              label: w.off.checkOf(step.n, w.off.kinds[check.kind]),
              fields: check.between.map((_, i) => ({ label: lineName(check, i), wanted: print(check.expected[i] ?? 0, plan.unit) })),
              ask: (/** @type {string[]} */ values) => ({ check: { step: step.n, at, values } }),
            },
          ],
    ),
  );
  const here = past.flatMap((step) => step.parts);
  const place = (/** @type {string} */ id) => (here.includes(id) ? here.indexOf(id) : here.length);
  const panels = plan.parts.filter((part) => part.kind === "panel").sort((a, b) => place(a.id) - place(b.id));
  return [
    ...checks,
    ...panels.map((part) => ({
      label: w.off.sizesOf(part.name),
      fields: [
        { label: w.off.length, wanted: print(part.length, plan.unit) },
        { label: w.off.across, wanted: print(part.width, plan.unit) },
        { label: w.off.thickness, wanted: print(part.thickness, fineOf(plan.unit)) },
      ],
      ask: (/** @type {string[]} */ values) => ({ part: { id: part.id, values } }),
    })),
  ];
}

/** Which sign stands for a verdict. */
const SIGNS = { good: "check", mend: "fix", wrong: "stop", unread: "caution" };

/** @param {import("../types").Remedy} said */
const told = (said) =>
  h(
    "div",
    { class: "verdict", "data-verdict": said.verdict, lang: "en" },
    glyph(SIGNS[said.verdict]),
    h("div", {}, ...said.text.map((text) => h("p", {}, fractions(text))), ...said.findings.map((finding) => h("p", {}, fractions(`${finding.message} ${finding.hint}`)))),
  );

/**
 * The page of the sheet.
 * @param {App} app
 */
export function off(app) {
  const { plan, step } = app.state();
  if (!plan) return h("p", {}, w.off.none);
  const all = subjects(plan, step);
  const answer = h("div", { class: "answer", role: "status" });
  const fields = h("div", { class: "off-fields" });
  /** @type {HTMLInputElement[]} */
  let inputs = [];
  const which = h("select", { id: "off-what", onchange: () => fill() }, ...all.map((one, i) => h("option", { value: i }, one.label)));
  const subject = () => all[Number(which.value)] ?? all[0];

  function fill() {
    answer.replaceChildren();
    inputs = [];
    fields.replaceChildren(
      ...(subject()?.fields ?? []).map((one, i) => {
        const input = h("input", { id: `off-${i}`, type: "text", class: "figure", autocomplete: "off", autocapitalize: "off", spellcheck: "false" });
        inputs.push(input);
        return h("div", { class: "field" }, h("label", { for: `off-${i}` }, one.label), h("span", { class: "box" }, input), h("span", { class: "hint" }, `${w.off.wanted} `, fractions(one.wanted)));
      }),
    );
  }

  /** @param {Event} event */
  async function ask(event) {
    event.preventDefault();
    const chosen = subject();
    if (!chosen) return;
    const said = await app.remedy(chosen.ask(inputs.map((input) => input.value)));
    for (const input of inputs) input.removeAttribute("aria-invalid");
    for (const finding of said?.findings ?? []) inputs[Number(/\d+/.exec(finding.where)?.[0])]?.setAttribute("aria-invalid", "true");
    answer.replaceChildren(said ? told(said) : h("p", {}, w.off.noAnswer));
  }

  const form = h(
    "form",
    { class: "off", onsubmit: ask },
    h("p", {}, w.off.intro),
    h("div", { class: "field" }, h("label", { for: "off-what" }, w.off.what), which),
    fields,
    h("button", { type: "submit", class: "strong" }, w.off.ask),
    answer,
  );
  fill();
  return form;
}
