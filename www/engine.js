// The one script that knows the compiled core. The planner's worker runs it for the plan, the page for
// the sizes at each key; where there are no workers, the page runs it for both.
import { start as startModule } from "./module.js";

/** @typedef {import("./types").Outcome} Outcome */

/** @type {import("./types").Core | null} */
let glue = null;
/** The session of the last plan that worked, and what it was made from: its files stay available
 * while sizes are being changed.
 * @type {{ text: string, session: import("./types").Session } | null} */
let good = null;
/** A core that stopped in the middle, for want of memory or by a fault, may be in no state to go on. */
let stopped = false;

/** @returns {boolean} */
export const hasStopped = () => stopped;

/** @param {unknown} error */
function stop(error) {
  stopped = true;
  console.error(error);
}

/**
 * Starts the core here.
 * @param {WebAssembly.Module} compiled
 */
export async function start(compiled) {
  glue = await startModule("planner", compiled);
}

/** Told of a plan that the core did not live to the end of. */
export const STOPPED = "The planner stopped on these sizes. That is a fault of the program, not yours.";

/**
 * Plans a scenario. Each build has its own session: a failed one leaves the last good one whole.
 * @param {string} text of a scenario file
 * @returns {string} the outcome as JSON
 */
export function build(text) {
  if (!glue) return broken("The planner is not loaded.");
  try {
    const session = new glue.Session();
    const json = session.build(text);
    if (!session.has_plan()) {
      session.free();
    } else {
      good?.session.free();
      good = { text, session };
    }
    return json;
  } catch (error) {
    stop(error);
    return broken(STOPPED);
  }
}

/**
 * Sizes and parts, without an order: a few milliseconds, so that they may be asked for at each key.
 * @param {string} text of a scenario file
 * @returns {import("./types").Draft | null} nothing when the core is not there or stops
 */
export function draft(text) {
  if (!glue) return null;
  try {
    const session = new glue.Session();
    const json = session.draft(text);
    session.free();
    return JSON.parse(json);
  } catch (error) {
    console.error(error);
    return null;
  }
}

/**
 * What the page is told when the core gave no answer.
 * @param {string} message
 * @returns {string}
 */
export function broken(message) {
  /** @type {Outcome} */
  const outcome = {
    findings: [
      {
        code: "planner-stopped",
        severity: "stop",
        where: "",
        message,
        hint: "Put the last change back and load the page again. What you typed is kept.",
      },
    ],
    sizes: [],
    checks: [],
    plan: null,
  };
  return JSON.stringify(outcome);
}

/**
 * @template T
 * @param {string} text of the scenario file: the last plan may be of another by now
 * @param {(session: import("./types").Session) => T | undefined} use
 * @returns {T | undefined}
 */
function ofPlan(text, use) {
  if (good?.text !== text) build(text);
  if (good?.text !== text) return undefined;
  try {
    return use(good.session);
  } catch (error) {
    stop(error);
    return undefined;
  }
}

/**
 * The plan of a scenario as a binary glTF model.
 * @param {string} text of the scenario file
 * @returns {Uint8Array<ArrayBuffer> | undefined}
 */
export function model(text) {
  const bytes = ofPlan(text, (session) => session.model());
  return bytes && new Uint8Array(bytes);
}

/**
 * What to do about something measured, as JSON.
 * @param {string} text of the scenario file
 * @param {string} question as JSON
 * @returns {string | undefined}
 */
export function remedy(text, question) {
  return ofPlan(text, (session) => session.remedy(question));
}

/**
 * A file made of the plan of a scenario.
 * @param {string} text of the scenario file
 * @param {string} kind `plan.json`, `parts.csv`, `steps.txt`, `ready.csv`, `cuts.csv` and the like, `step-svg:N`, or `part-svg:ID`
 * @param {number} [to] with the layout found in so many steps
 */
export const exportFile = (text, kind, to = 0) =>
  ofPlan(text, (session) => {
    // What is drawn of a step or a part hangs on no layout.
    if (to > 0 && !/^(step|room|part)-[a-z]+:/.test(kind)) session.cut(to);
    return session.export(kind);
  });

/**
 * Looks on for a better layout until so many steps are taken.
 * @param {string} text of the scenario file
 * @param {number} to
 * @returns {string | undefined} the progress as JSON
 */
export const cut = (text, to) => ofPlan(text, (session) => session.cut(to));

/**
 * What is there after some saw steps of the layout found in so many steps.
 * @param {string} text of the scenario file
 * @param {number} to
 * @param {string} told steps done and parts spoiled, as JSON
 */
export const asCut = (text, to, told) =>
  ofPlan(text, (session) => {
    session.cut(to);
    return session.as_cut(told);
  });

/**
 * Does what the planner asks.
 * @param {import("./types").Work} work
 * @returns {import("./types").Answer}
 */
export function answer(work) {
  switch (work.kind) {
    case "build":
      return build(work.text);
    case "export":
      return exportFile(work.text, work.file, work.to);
    case "cut":
      return cut(work.text, work.to);
    case "as-cut":
      return asCut(work.text, work.to, work.told);
    case "model":
      return model(work.text);
    case "remedy":
      return remedy(work.text, work.question);
  }
}
