// What the maker decides about the order of work: what to start with, how the piece may lie, who
// is there, and what is together already.
import { h } from "./dom.js";
import { bodyName, partName } from "./plan.js";
import { remarks } from "./remarks.js";
import { choice, tick } from "./scenario-form.js";
import { listOf, typed, valueAt } from "./scenario.js";
import { w } from "./words.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Plan} Plan */
/** @typedef {import("./types").Step} Step */
/** @typedef {import("./types").State} State */
/** @typedef {import("./types").Direction} Direction */

/** @type {[Direction, string, string][]} The faces of the piece, in the file's words and in a maker's. */
const FACES = [
  ["+y", "back", w.order.faces.back],
  ["-y", "front", w.order.faces.front],
  ["-x", "left", w.order.faces.left],
  ["+x", "right", w.order.faces.right],
  ["-z", "bottom", w.order.faces.bottom],
  ["+z", "top", w.order.faces.top],
];

/** @param {Direction} face */
const wordOf = (face) => FACES.find(([code]) => code === face)?.[1] ?? "bottom";

/**
 * Parts of the piece itself after a step, bodies that joined it included, and how it lies then.
 * @param {Plan} plan
 * @param {number} n of a step
 * @returns {{ parts: string[], face: string, open: [string, string][], beside: string[] } | null} nothing while there
 *   is none of it; `open`: parts in it that are still to be fastened to each other; `beside`: bodies that are begun
 *   and have not joined it
 */
function together(plan, n) {
  /** @type {Map<string, string[]>} */
  const bodies = new Map();
  const closed = new Set();
  /** @type {Direction | null} */
  let face = null;
  for (const step of plan.steps) {
    if (step.n > n) break;
    const held = bodies.get(step.body) ?? [];
    const joined = step.joins === undefined ? [] : (bodies.get(step.joins) ?? []);
    bodies.set(step.body, [...held, ...step.parts, ...joined]);
    if (step.joins !== undefined) bodies.delete(step.joins);
    for (const id of step.joints) closed.add(id);
    if (step.body === "main") face = step.bench_face;
  }
  const parts = bodies.get("main") ?? [];
  if (face === null || parts.length === 0) return null;
  const inside = new Set(parts);
  const open = plan.joints.filter((joint) => !closed.has(joint.id) && joint.parts.every((id) => inside.has(id))).map((joint) => joint.parts);
  const beside = [...bodies.keys()].filter((id) => id !== "main");
  return { parts, face: wordOf(face), open, beside };
}

/**
 * Whether the rest may be planned anew from the step that is shown, and why not.
 * @param {App} app
 */
export function fromHere(app) {
  const { plan, step, scenario, stale } = app.state();
  const found = plan ? together(plan, step) : null;
  const [open] = found?.open ?? [];
  const says = !found ? w.already.nothing : open ? w.already.open(partName(plan, open[0]), partName(plan, open[1])) : w.already.parts(found.parts.length);
  return {
    can: found !== null && open === undefined && !stale,
    says,
    /** Bodies that are begun and have not joined the piece. */
    beside: found && !open ? found.beside : [],
    /** How many parts an earlier choice says are together. */
    given: listOf(valueAt(scenario, ["order", "done", "parts"])).length,
    take() {
      if (found && !open && !stale) app.edit(["order", "done"], { parts: found.parts, face: found.face });
    },
    clear: () => app.edit(["order", "done"], undefined),
  };
}

/** The face that the piece stands on in the end: it may always lie on that one.
 * @param {Plan} plan */
const endsOn = (plan) => wordOf(plan.steps.filter((step) => step.body === "main").at(-1)?.bench_face ?? "-z");

/**
 * @param {App} app
 * @param {Plan} plan
 */
function faces(app, plan) {
  const always = endsOn(plan);
  const now = valueAt(app.state().scenario, ["order", "lay_on"]);
  const listed = listOf(now).map(typed);
  const may = (/** @type {string} */ word) => now === undefined || word === always || listed.includes(word);
  /** @type {Map<string, HTMLInputElement>} */
  const boxes = new Map();
  const changed = () => {
    const on = FACES.map(([, word]) => word).filter((word) => boxes.get(word)?.checked);
    app.edit(["order", "lay_on"], on.length === FACES.length ? undefined : on);
  };
  return h(
    "fieldset",
    { class: "ticks" },
    h("legend", {}, w.order.lieOn),
    ...FACES.map(([, word, label]) => {
      const made = tick(label, may(word), changed, word === always);
      boxes.set(word, made.box);
      return made.element;
    }),
  );
}

/**
 * The folded part above the list of steps.
 * @param {App} app
 */
export function orderChoices(app) {
  const said = h("div", { class: "said", role: "status" });
  const body = h("div", { class: "choose" });
  const set = h("span", { class: "quiet" });
  const element = h("details", { class: "order" }, h("summary", {}, h("span", {}, w.order.title), set), said, body);
  const which = h("p", { class: "which" });
  const pick = h("button", { type: "button", onclick: () => fromHere(app).take() }, w.order.upToHere);
  const clear = h("button", { type: "button", onclick: () => fromHere(app).clear() }, w.already.again);
  /** What the form was made for; what was told last. */
  let made = "";
  let told = "";
  /** @type {import("./scenario-form.js").Field[]} */
  let fields = [];

  /**
   * @param {State} state
   * @param {Plan} plan
   */
  function build(state, plan) {
    const panels = plan.parts.filter((part) => part.group === "main" && part.kind === "panel");
    /** @type {[string, string][]} */
    const options = [["", w.order.best], ...panels.map((part) => /** @type {[string, string]} */ ([part.id, part.name]))];
    const first = choice(app, { path: ["order", "first"], label: w.order.start, options });
    const written = valueAt(state.scenario, ["shop", "people"]) !== undefined;
    const people = choice(app, { path: ["shop", "people"], label: w.order.people, options: [[written ? 1 : "", "1"], [2, "2"], [3, "3"], [4, "4"]] });
    fields = [first, people];
    const alone = tick(w.order.alone, valueAt(state.scenario, ["order", "alone"]) === true, (on) => app.edit(["order", "alone"], on ? true : undefined));
    body.replaceChildren(
      first.element,
      faces(app, plan),
      h("fieldset", { class: "ticks" }, h("legend", {}, w.order.who), people.element, alone.element),
      h("fieldset", {}, h("legend", {}, w.order.together), which, h("div", { class: "buttons" }, pick, clear)),
    );
  }

  /** @param {Plan} plan */
  function tellDone(plan) {
    const { can, says, beside, given } = fromHere(app);
    const text = [
      given > 0 ? w.order.taken(given) : "",
      says,
      beside.length > 0 ? w.order.beside(beside.map((id) => bodyName(plan, id))) : "",
    ].filter(Boolean).join(" ");
    if (which.textContent !== text) which.textContent = text;
    pick.setAttribute("aria-disabled", String(!can));
    clear.hidden = given === 0;
  }

  return {
    element,
    /** @param {State} state */
    update(state) {
      const { plan } = state;
      if (!plan) return;
      const key = JSON.stringify([state.shape, endsOn(plan), plan.parts.map((part) => [part.id, part.name])]);
      if (key !== made) {
        made = key;
        build(state, plan);
      }
      for (const one of fields) one.update(state);
      tellDone(plan);
      const chosen = ["first", "alone", "lay_on", "done"].filter((name) => valueAt(state.scenario, ["order", name]) !== undefined).length;
      set.textContent = chosen === 0 ? "" : ` (${w.order.made(chosen)})`;
      const stops = state.planning || !state.stale ? [] : (state.outcome?.findings ?? []).filter((finding) => finding.severity === "stop");
      const now = JSON.stringify([state.planning && state.aboutOrder, stops]);
      if (now === told) return;
      told = now;
      said.replaceChildren(
        state.planning && state.aboutOrder ? w.order.working : "",
        stops.length > 0 ? h("p", {}, w.order.none) : "",
        stops.length > 0 ? remarks(stops) : "",
      );
    },
  };
}
