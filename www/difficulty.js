// How hard a step is, by what makes assembly hard in tests with people: how much has to be chosen,
// fastened, and told apart (Richardson et al., 2004). Which of it counts how much is a judgement.
import { countScrews, fastenersById, lookalikes } from "./parts.js";

/** @typedef {import("./types").Plan} Plan */
/** @typedef {import("./types").Step} Step */

/** Above this a step is said joint by joint. */
export const HARD = 12;
/** So many screws of one kind are as one more thing to do. */
const ROW = 3;

/**
 * @param {Plan} plan
 * @param {Step} step
 * @returns {number} the sum of what there is to choose, to fasten, to hold, to tell apart and to check
 */
export function difficulty(plan, step) {
  const byId = fastenersById(plan);
  const kinds = countScrews(step.fasteners.flatMap((id) => byId.get(id) ?? [])).length;
  const chosen = (step.joins === undefined ? step.parts.length : 1) + kinds + (step.spacer ? 1 : 0);
  const twins = step.parts.filter((id) => plan.parts.some((part) => part.id === id && lookalikes(plan, part).length > 0)).length;
  const rows = Math.ceil(step.fasteners.length / ROW);
  const held = step.hold.filter((hold) => hold.with === "hand" || hold.with === "helper" || hold.with === "clamp").length;
  return chosen + twins + rows + driven(plan, step).length + held + (step.clamps ?? []).length + step.checks.length + (step.people > 1 ? 1 : 0);
}

/**
 * The joints whose screws a step drives, with how many there are.
 * @param {Plan} plan
 * @param {Step} step
 * @returns {{ parts: [string, string], screws: number }[]}
 */
export function driven(plan, step) {
  const now = new Set(step.fasteners);
  return plan.joints.flatMap(({ parts, fasteners }) => {
    const screws = fasteners.filter((fastener) => now.has(fastener.id)).length;
    return screws > 0 ? [{ parts, screws }] : [];
  });
}
