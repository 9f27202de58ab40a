// What a tap on the picture tells: the part's name, size, mass, label and steps; or, when measuring,
// how far two faces are apart.
import { fractions, h } from "../dom.js";
import { glyph } from "../glyphs.js";
import { print, printMass, printSides } from "../lengths.js";
import { mark } from "../parts.js";
import { benchSteps, partName } from "../plan.js";
import { w } from "../words.js";

/** @typedef {import("../types").App} App */
/** @typedef {import("../types").Face} Face */

/**
 * @param {App} app
 * @param {() => boolean} measures whether taps measure
 */
export function card(app, measures) {
  const element = h("div", { class: "card", role: "status", hidden: true });
  /** The face that was tapped first.
   * @type {Face | null} */
  let first = null;
  const close = () => {
    element.hidden = true;
    first = null;
  };
  const shut = () => h("button", { type: "button", class: "stop", "aria-label": w.sheet.close, title: w.sheet.close, onclick: close }, glyph("close"));
  const name = (/** @type {string} */ id) => partName(app.state().plan, id);

  /** @param {string} id */
  function part(id) {
    const { plan } = app.state();
    const found = plan?.parts.find((one) => one.id === id);
    if (!plan || !found) return close();
    const joints = new Set(plan.joints.filter((joint) => joint.parts.includes(id)).map((joint) => joint.id));
    const steps = benchSteps(plan).filter((step) => (step.parts.includes(id) || step.joints.some((joint) => joints.has(joint))));
    element.replaceChildren(
      h("p", { class: "card-name" }, h("span", { class: "card-label" }, mark(plan.parts.indexOf(found))), h("strong", {}, found.name)),
      shut(),
      h("p", {}, fractions(printSides(found, plan.unit)), h("br"), `${found.material_name}, ${printMass(found.mass_g, plan.unit)}`),
      h("div", { class: "card-steps" }, h("span", { class: "quiet" }, w.card.steps), ...steps.map((step) => h("button", { type: "button", "aria-label": w.card.toStep(step.n), onclick: () => app.goStep(step.n, true) }, `${step.n}`))),
    );
    element.hidden = false;
  }

  /** @param {Face} face */
  function measure(face) {
    const { plan } = app.state();
    if (!plan) return;
    /** @type {(Node | string)[]} */
    let said;
    if (!first) {
      first = face;
      said = [w.card.second(name(face.id))];
    } else if (first.axis !== face.axis) {
      said = [w.card.notParallel(name(first.id))];
    } else {
      const far = Math.abs(first.at - face.at);
      said = [h("strong", { class: "card-far" }, fractions(print(far, plan.unit))), " ", w.card.between(name(first.id), name(face.id))];
      first = null;
    }
    element.replaceChildren(h("p", { class: "card-name" }, ...said), shut());
    element.hidden = false;
  }

  return {
    element,
    /** @param {Face | null} face that was tapped */
    tapped(face) {
      if (!face) close();
      else if (measures()) measure(face);
      else part(face.id);
    },
  };
}
