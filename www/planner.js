// Asks for plans: of a worker, or of the core on this page where there is none.
import * as engine from "./engine.js";

/** @typedef {import("./types").Outcome} Outcome */
/** @typedef {import("./types").Asked} Asked */
/** @typedef {import("./types").Answered} Answered */
/** @typedef {{ resolve: (text: string | undefined) => void, reject: (error: Error) => void }} Waiting */

/** @type {Worker | null} */
let worker = null;
/** @type {Map<number, Waiting>} */
const waiting = new Map();
let asked = 0;

/** A worker that broke gives no more answers: who waits is told, and the page plans for itself.
 * @param {string} why */
function drop(why) {
  worker?.terminate();
  worker = null;
  for (const { reject } of waiting.values()) reject(new Error(why));
  waiting.clear();
}

/**
 * @param {Worker} whom
 * @param {import("./types").Question} question
 * @returns {Promise<string | undefined>}
 */
function ask(whom, question) {
  asked += 1;
  const id = asked;
  return new Promise((resolve, reject) => {
    waiting.set(id, { resolve, reject });
    whom.postMessage({ id, ...question });
  });
}

/** Fetches the core and starts it, here and in the worker. */
export async function start() {
  const compiled = await engine.compile();
  await engine.start(compiled);
  try {
    const made = new Worker(new URL("./planner-worker.js", import.meta.url), { type: "module" });
    worker = made;
    made.addEventListener("error", () => drop("the worker stopped"));
    made.addEventListener("messageerror", () => drop("the worker was not understood"));
    made.addEventListener("message", (/** @type {MessageEvent<Answered>} */ { data }) => {
      const found = waiting.get(data.id);
      waiting.delete(data.id);
      if (data.failed === undefined) found?.resolve(data.text);
      else found?.reject(new Error(data.failed));
    });
    await ask(made, { kind: "start", compiled });
  } catch (error) {
    // An old browser, or a host that forbids workers.
    console.info("planning on the page itself:", error);
    drop("no worker");
  }
}

/**
 * @param {import("./types").Work} work
 * @returns {Promise<string | undefined>}
 */
async function done(work) {
  if (worker) {
    try {
      return await ask(worker, work);
    } catch (error) {
      console.info("planning on the page itself:", error);
    }
  }
  return work.kind === "build" ? engine.build(work.text) : engine.exportFile(work.text, work.file);
}

/**
 * Plans a scenario.
 * @param {string} text of a scenario file
 * @returns {Promise<Outcome>}
 */
export async function plan(text) {
  const json = await done({ kind: "build", text });
  return JSON.parse(json ?? engine.broken("The planner gave no answer."));
}

/**
 * A file made of a scenario's plan.
 * @param {string} text of the scenario file
 * @param {string} file `plan.json`, `parts.csv`, `steps.txt` or `step-svg:N`
 * @returns {Promise<string | undefined>}
 */
export function exportFile(text, file) {
  return done({ kind: "export", text, file });
}
