// Form fields bound to the scenario by path, each with the core's remark beside it.
import { h } from "./dom.js";
import { beside } from "./remarks.js";
import { keyOf, typed, valueAt } from "./scenario.js";
import { w } from "./words.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Path} Path */
/** @typedef {import("./types").State} State */
/** @typedef {{ element: HTMLElement, key: string, update(state: State): void }} Field */

/**
 * @typedef {object} Spec
 * @property {Path} path
 * @property {string} label
 * @property {"length" | "text" | "number"} [type]
 * @property {string} [unit] after the box; lengths show the scenario's own
 * @property {string} [hint]
 * @property {string} [placeholder] what holds while nothing is typed
 * @property {Path} [section] what is taken out as a whole when nothing is typed
 */

/** What a plain number means, for the end of a length's box.
 * @param {State} state */
function plainUnit(state) {
  return typed(valueAt(state.scenario, ["unit"])) || "mm";
}

/**
 * How lengths are printed beside what the core says of them.
 * @param {State} state
 * @returns {import("./types").Notation}
 */
export const notationOf = (state) => state.plan?.unit ?? (plainUnit(state) === "in" ? "inch-16" : "mm-half");

/**
 * Takes each field of a form down as it is placed, so that it is told what changes.
 * @param {Field[]} fields
 * @returns {(made: Field) => HTMLElement}
 */
export const adding = (fields) => (made) => {
  fields.push(made);
  return made.element;
};

/**
 * What the core says of a whole group, where no single field is to blame.
 * @param {Path} path
 * @returns {Field}
 */
export function groupRemark(path) {
  const key = keyOf(path);
  const element = h("div", { class: "message" });
  let told = "";
  return {
    element,
    key,
    update(state) {
      const found = findingsAt(state, key);
      const text = JSON.stringify(found);
      if (text === told) return;
      told = text;
      element.replaceChildren(...beside(found));
    },
  };
}

/**
 * Ids stay the same while a form is rebuilt, so that a finding finds its field.
 * @param {Path} path
 */
const idOf = (path) => `f-${keyOf(path).replaceAll(/[^\w-]/g, "-")}`;

/**
 * @param {State} state
 * @param {string} key
 */
const findingsAt = (state, key) => (state.outcome?.findings ?? []).filter((finding) => keyOf(finding.where) === key);

/**
 * @param {HTMLInputElement | HTMLSelectElement} control
 * @param {HTMLElement} message
 * @param {string} hintId
 * @param {State} state
 * @param {string} key
 */
function tell(control, message, hintId, state, key) {
  const found = findingsAt(state, key);
  const wrong = found.some((finding) => finding.severity === "stop" || finding.severity === "fix");
  const told = found.map((finding) => `${finding.severity}${finding.message}${finding.hint}`).join();
  const described = [found.length > 0 ? message.id : "", hintId].filter(Boolean).join(" ");
  if (described) control.setAttribute("aria-describedby", described);
  else control.removeAttribute("aria-describedby");
  if (wrong) control.setAttribute("aria-invalid", "true");
  else control.removeAttribute("aria-invalid");
  if (message.dataset.told === told) return;
  message.dataset.told = told;
  message.replaceChildren(...beside(found));
}

/**
 * A box to type in. Text stays as typed; only counts and masses that read as numbers become numbers.
 * @param {App} app
 * @param {Spec} spec
 * @returns {Field}
 */
export function field(app, spec) {
  const key = keyOf(spec.path);
  const id = idOf(spec.path);
  const hintId = spec.hint ? `${id}-hint` : "";
  const input = h("input", {
    id,
    type: "text",
    class: spec.type === "text" ? "name" : "figure",
    inputmode: spec.type === "number" ? "decimal" : null,
    placeholder: spec.placeholder,
    autocomplete: "off",
    autocapitalize: "off",
    spellcheck: "false",
    value: typed(valueAt(app.state().scenario, spec.path)),
    oninput: () => {
      const text = input.value;
      const number = Number(text.replace(",", "."));
      const isNumber = spec.type === "number" && text.trim() !== "" && Number.isFinite(number);
      if (text.trim() === "") app.edit(spec.section ?? spec.path, undefined);
      else app.edit(spec.path, isNumber ? number : text);
    },
  });
  const unit = spec.unit ?? (spec.type === "length" ? plainUnit(app.state()) : "");
  const message = h("div", { id: `${id}-message`, class: "message" });
  const element = h(
    "div",
    { class: "field" },
    h("label", { for: id }, spec.label),
    h("span", { class: "box" }, input, unit ? h("span", { class: "unit", "aria-hidden": "true" }, unit) : null),
    spec.hint ? h("span", { id: hintId, class: "hint" }, spec.hint) : null,
    message,
  );
  return { element, key, update: (state) => tell(input, message, hintId, state, key) };
}

/**
 * A choice among a few words.
 * @param {App} app
 * @param {{ path: Path, label: string, hint?: string, options: [string | number | boolean, string][] }} spec
 * @returns {Field}
 */
export function choice(app, spec) {
  const key = keyOf(spec.path);
  const id = idOf(spec.path);
  const hintId = spec.hint ? `${id}-hint` : "";
  const now = typed(valueAt(app.state().scenario, spec.path));
  const known = spec.options.some(([value]) => String(value) === now);
  const select = h("select", {
    id,
    onchange: () => {
      const picked = spec.options.find(([value]) => String(value) === select.value);
      const value = picked ? picked[0] : select.value;
      app.edit(spec.path, value === "" ? undefined : value);
    },
  });
  // A value the list does not know is shown all the same: the file is the maker's, not the form's.
  if (!known) select.append(h("option", { value: now, selected: true }, now === "" ? w.form.usual : now));
  for (const [value, words] of spec.options) {
    select.append(h("option", { value, selected: String(value) === now }, words));
  }
  const message = h("div", { id: `${id}-message`, class: "message" });
  const element = h(
    "div",
    { class: "field" },
    h("label", { for: id }, spec.label),
    select,
    spec.hint ? h("span", { id: hintId, class: "hint" }, spec.hint) : null,
    message,
  );
  return { element, key, update: (state) => tell(select, message, hintId, state, key) };
}

/**
 * Takes a row out of its list.
 * @param {() => void} gone
 * @param {string} what
 */
export const remover = (gone, what) => h("button", { type: "button", class: "plain", "aria-label": w.form.removes(what), onclick: gone }, w.form.remove);

/**
 * A box to tick, pressed as one with its words.
 * @param {string} label
 * @param {boolean} on
 * @param {(on: boolean) => void} changed
 * @param {boolean} [fixed] shown, not to be changed
 */
export function tick(label, on, changed, fixed = false) {
  const box = h("input", { type: "checkbox", checked: on, disabled: fixed, onchange: () => changed(box.checked) });
  return { element: h("label", { class: "tick" }, box, h("span", {}, label)), box };
}
