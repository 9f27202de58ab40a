// Looking things up in a plan: steps, names, sentences.

/** @typedef {import("./types").Plan} Plan */

/**
 * The steps on the bench; those in the room stand under Install.
 * @param {Plan | null | undefined} plan
 */
export const benchSteps = (plan) => (plan?.steps ?? []).filter((step) => step.stage === "bench");

/**
 * @param {Plan | null | undefined} plan
 * @param {string} id of a part
 */
export const partName = (plan, id) => plan?.parts.find((part) => part.id === id)?.name ?? id.replaceAll("-", " ");

/**
 * @param {Plan} plan
 * @param {string} id of a body
 */
export const bodyName = (plan, id) => plan.bodies?.find((body) => body.id === id)?.name ?? id.replaceAll("-", " ");

/**
 * @param {Plan} plan
 * @param {string} id of a part, a body or an offcut
 */
export function nameOf(plan, id) {
  const found = plan.parts.find((part) => part.id === id) ?? plan.workshop.offcuts?.find((offcut) => offcut.id === id);
  return found?.name ?? bodyName(plan, id);
}

/**
 * A step's text, taken apart at what it asks for: glue to spread comes before it.
 * @param {string} text
 * @returns {{ before: string[], asked: string, after: string[] }}
 */
export function sentencesOf(text) {
  const all = text.split(/(?<=\.) (?=[A-Z])/);
  const first = Math.max(0, all.findIndex((one) => !one.startsWith("Spread glue")));
  return { before: all.slice(0, first), asked: all[first] ?? text, after: all.slice(first + 1) };
}
