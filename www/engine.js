// The one module that knows the compiled core.

/** @typedef {import("./types").Outcome} Outcome */

/** @type {import("./types").Glue | null} */
let glue = null;
/** The session of the last plan that worked: its files stay available while sizes are being changed.
 * @type {import("./types").Session | null} */
let good = null;

/** Fetches and starts the core. */
export async function start() {
  // A computed address, so that the type check does not need the generated module to be there.
  const address = new URL("./pkg/jointwise_web.js", import.meta.url).href;
  const loaded = /** @type {import("./types").Glue} */ (await import(address));
  await loaded.default();
  glue = loaded;
}

/**
 * Plans a scenario. Each build has its own session: a failed one leaves the last good one whole.
 * @param {string} text of a scenario file
 * @returns {Outcome}
 */
export function build(text) {
  if (!glue) return broken("The planner is not loaded.");
  try {
    const session = new glue.Session();
    const outcome = /** @type {Outcome} */ (JSON.parse(session.build(text)));
    if (outcome.plan) {
      good?.free();
      good = session;
    } else {
      session.free();
    }
    return outcome;
  } catch (error) {
    console.error(error);
    return broken("The planner stopped on these sizes. That is a fault of the program, not yours.");
  }
}

/**
 * @param {string} message
 * @returns {Outcome}
 */
function broken(message) {
  return {
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
    plan: null,
  };
}

/**
 * @param {string} kind `plan.json`, `parts.csv`, `steps.txt` or `step-svg:N`
 * @returns {string | undefined}
 */
export function exportFile(kind) {
  try {
    return good?.export(kind);
  } catch (error) {
    console.error(error);
    return undefined;
  }
}

/**
 * @param {WebGL2RenderingContext} gl
 * @param {string} planJson
 * @returns {import("./types").View | null} Null when this device cannot draw it.
 */
export function createView(gl, planJson) {
  if (!glue) return null;
  try {
    return new glue.View(gl, planJson);
  } catch (error) {
    console.error(error);
    return null;
  }
}
