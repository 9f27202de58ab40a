// What is built once more, said in the list of steps and in the words of a step.
import { h } from "../dom.js";
import { note } from "../note.js";
import { bodyName } from "../plan.js";
import { CORE, w } from "../words.js";

/** @typedef {import("../types").Plan} Plan */
/** @typedef {ReturnType<typeof import("../repeats.js").repeats>} Repeats */

/** What is built, over its steps in the list; of what is built once more, like which.
 * @param {Plan} plan
 * @param {import("../types").Step} step
 * @param {Repeats} again */
export function bodyHead(plan, step, again) {
  const found = again.get(step.n);
  const like = found?.begins ? h("span", { class: "quiet" }, ` ${w.bench.asSteps(found.same.n, found.all.at(-1)?.n ?? found.same.n)}`) : null;
  return h("span", { class: "body-name" }, h("span", { lang: CORE }, bodyName(plan, step.body)), like);
}

/** That a step was done before, on another body like this one.
 * @param {Plan} plan
 * @param {import("../types").Step} step
 * @param {Repeats} again */
export function asBefore(plan, step, again) {
  const found = again.get(step.n);
  if (!found) return null;
  const { same, all, begins } = found;
  const said = begins ? w.bench.again(bodyName(plan, step.body), bodyName(plan, same.body), same.n, all.at(-1)?.n ?? same.n) : w.bench.asStep(same.n);
  return note("replay", "again", said);
}
