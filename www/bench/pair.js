// A step for two people: what each does, when to call, what to say. All of it follows from the
// plan's holds and its number of people.
import { fractions, h } from "../dom.js";
import { glyph } from "../glyphs.js";
import { nameOf } from "../plan.js";
import { w } from "../words.js";

/** @typedef {import("../types").Plan} Plan */
/** @typedef {import("../types").Step} Step */

/**
 * Called before the step that needs them, not in it.
 * @param {Step | undefined} step
 * @param {Step | undefined} next
 */
export function callAhead(step, next) {
  if (!next || next.people < 2 || (step?.people ?? 1) > 1) return null;
  return h("p", { class: "note", "data-kind": "ahead" }, glyph("helper"), h("span", {}, h("strong", {}, w.pair.ahead), " ", w.pair.aheadWhy));
}

/**
 * @param {Plan} plan
 * @param {Step} step
 * @param {Step | undefined} next
 */
export function pair(plan, step, next) {
  const holds = step.hold.filter((hold) => hold.with === "helper");
  /** @type {(Node | string)[][]} */
  let yours;
  /** @type {(Node | string)[][]} */
  let theirs;
  /** @type {string[]} */
  let say = [];
  if (step.people < 2) {
    yours = [[w.pair.alone]];
    // Fetching needs no skill and spoils nothing.
    theirs = next ? [[w.pair.bring(next.parts.map((id) => nameOf(plan, id)), next.fasteners.length)]] : [[w.pair.free]];
    if (next && next.people > 1) theirs = [[w.pair.stay], ...theirs];
  } else if (holds.length > 0) {
    yours = [[step.fasteners.length > 0 ? w.pair.drive(step.fasteners.length) : w.pair.place]];
    theirs = holds.map((hold) => [h("strong", {}, w.pair.hold(hold.name ?? nameOf(plan, hold.what))), " ", fractions(hold.why)]);
    say = [w.pair.sayReady, w.pair.sayHolding, w.pair.sayLetGo];
  } else {
    yours = [[step.action === "turn" || step.action === "bring-in" ? w.pair.lead : w.pair.leadPart]];
    theirs = [[step.action === "turn" || step.action === "bring-in" ? w.pair.otherEnd : w.pair.otherEndPart]];
    say = [w.pair.sayGrip, w.pair.sayThree, w.pair.sayDown];
  }
  const column = (/** @type {string} */ title, /** @type {(Node | string)[][]} */ all) => h("div", {}, h("h3", {}, title), ...all.map((words) => h("p", {}, ...words)));
  return h(
    "section",
    { class: "pair", "aria-label": w.pair.title },
    column(w.pair.you, yours),
    column(w.pair.helper, theirs),
    say.length > 0 ? h("div", { class: "say" }, h("h3", {}, w.pair.say), h("ol", {}, ...say.map((one) => h("li", {}, one)))) : null,
  );
}
