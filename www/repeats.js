// What is built again: a body whose steps are those of one before it, only with other parts.

/** @typedef {import("./types").Plan} Plan */
/** @typedef {import("./types").Step} Step */

/**
 * All that a step asks for, without the names of what it asks it of.
 * @param {Plan} plan
 * @param {Step} step
 */
function signature(plan, step) {
  const part = (/** @type {string} */ id) => {
    const found = plan.parts.find((one) => one.id === id);
    return found ? [found.material, found.length, found.width, found.thickness] : [];
  };
  const screws = new Set(step.fasteners);
  const joints = plan.joints.filter((joint) => joint.fasteners.some((fastener) => screws.has(fastener.id)) || step.joints.includes(joint.id));
  return JSON.stringify([
    step.action,
    step.bench_face,
    step.direction ?? "",
    step.parts.map(part),
    joints.map((joint) => [joint.kind, joint.glue, joint.fasteners.filter((fastener) => screws.has(fastener.id)).map(({ kind, gauge, length }) => [kind, gauge, length])]),
    step.hold.map((hold) => hold.with),
    step.spacer?.dimension ?? 0,
    step.checks.map((check) => [check.kind, check.expected]),
    (step.clamps ?? []).map((clamp) => clamp.opening),
    step.people,
  ]);
}

/**
 * @typedef {object} Again
 * @property {Step} same the step that is done again
 * @property {Step[]} all all steps of the body it belongs to
 * @property {boolean} begins whether the repeat begins here
 */

/**
 * For each step of a body that is built like an earlier one, the step there that it repeats.
 * @param {Plan} plan
 * @param {Step[]} steps
 * @returns {Map<number, Again>} by the number of the step
 */
export function repeats(plan, steps) {
  /** @type {Map<string, Step[]>} */
  const bodies = new Map();
  for (const step of steps) bodies.set(step.body, [...(bodies.get(step.body) ?? []), step]);
  /** @type {Map<string, Step[]>} */
  const first = new Map();
  /** @type {Map<number, Again>} */
  const again = new Map();
  for (const own of bodies.values()) {
    // One step is told as quickly as what it repeats.
    if (own.length < 2) continue;
    const key = own.map((step) => signature(plan, step)).join("\n");
    const before = first.get(key);
    if (!before) first.set(key, own);
    own.forEach((step, i) => {
      const same = before?.[i];
      if (before && same) again.set(step.n, { same, all: before, begins: i === 0 });
    });
  }
  return again;
}
