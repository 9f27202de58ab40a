// Plans beside the page, so that typing never waits for a plan.
import * as engine from "./engine.js";

/** @typedef {import("./types").Asked} Asked */
/** @typedef {import("./types").Answered} Answered */

/** The worker's own scope; the page's types describe a window.
 * @type {{ postMessage(answer: Answered): void, addEventListener(kind: "message", listener: (event: MessageEvent<Asked>) => void): void }} */
const scope = /** @type {any} */ (self);

/** Questions wait here until the core runs.
 * @type {Promise<void>} */
let running = Promise.resolve();

/** @param {Asked} asked */
async function answer(asked) {
  if (asked.kind === "start") {
    running = engine.start(asked.compiled);
    await running;
    return undefined;
  }
  await running;
  return engine.answer(asked);
}

scope.addEventListener("message", async ({ data }) => {
  try {
    scope.postMessage({ id: data.id, got: await answer(data), stopped: engine.hasStopped() });
  } catch (error) {
    scope.postMessage({ id: data.id, failed: String(error) });
  }
});
