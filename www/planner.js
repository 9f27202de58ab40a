// Asks for plans: of a worker, or of the core on this page where there is none.
import * as engine from "./engine.js";
import { addressInside, inside } from "./inside.js";
import { compile } from "./module.js";

/** @typedef {import("./types").Outcome} Outcome */
/** @typedef {import("./types").Work} Work */
/** @typedef {import("./types").Answered} Answered */
/** @typedef {import("./types").Answer} Answer */
/**
 * A question that has no answer yet, whom it was put to, and how many it has broken.
 * @typedef {{ work: Work, whom: Worker, broke: number, resolve: (got: Answer) => void, reject: (error: Error) => void }} Waiting
 * A plan that is waited for while more is typed.
 * @typedef {{ text: string, resolve: (outcome: Outcome | null) => void, reject: (error: Error) => void }} Typed
 * Such a plan under way: its number, when it began, when its time is up, whether it was given up.
 * @typedef {{ id: number, since: number, timer: number, given: boolean }} Run
 */

/** A plan that a newer question makes useless may still end within this time; then it is given up. */
const PATIENCE_MS = 300;
/** A question that has broken so many workers is not put to another one. */
const MOST_BROKEN = 2;

/** @type {Worker | null} */
let worker = null;
/** What a fresh worker is started with.
 * @type {WebAssembly.Module | null} */
let module = null;
/** In the order they were asked.
 * @type {Map<number, Waiting>} */
const waiting = new Map();
let asked = 0;
/** @type {Run | null} */
let now = null;
/** @type {Typed | null} */
let next = null;

/** Told when a worker broke and another one has taken over.
 * @type {() => void} */
let restarted = () => {};

/** Where no worker starts, who waits is told, and the page plans for itself.
 * @param {string} why */
function drop(why) {
  worker?.terminate();
  worker = null;
  for (const { reject } of waiting.values()) reject(new Error(why));
  waiting.clear();
}

/**
 * A worker that broke gives no more answers: a fresh one takes up what was asked. What broke it is asked once
 * more, since it may have been the memory; then it is answered as broken. The page's own core is not tried on it:
 * it sizes what is typed.
 * @param {string} why
 * @param {number} [by] the question; without it the one that it was at, which is the oldest
 */
function mend(why, by) {
  console.info("the planner starts again:", why);
  const [at] = waiting.keys();
  const id = by ?? at ?? 0;
  const one = waiting.get(id);
  if (one) one.broke += 1;
  if (one && one.broke >= MOST_BROKEN) {
    waiting.delete(id);
    one.resolve(one.work.kind === "build" ? engine.broken(engine.STOPPED) : undefined);
  }
  rehire();
  askAgain();
  restarted();
}

/** Puts a fresh worker in the place of the one that goes. */
function rehire() {
  worker?.terminate();
  if (!module) return;
  try {
    hire(module).catch((error) => drop(String(error)));
  } catch (error) {
    drop(String(error));
  }
}

/** Puts what another worker was asked to the one that is there now. */
function askAgain() {
  for (const [id, one] of waiting) {
    if (one.whom === worker || !worker) continue;
    one.whom = worker;
    worker.postMessage({ id, ...one.work });
  }
}

/**
 * A worker on its way: questions may be put to it at once. The promise says whether it runs.
 * @param {WebAssembly.Module} compiled
 */
function hire(compiled) {
  const made = new Worker(addressInside("planner-worker.js") ?? new URL("./planner-worker.js", import.meta.url), { type: inside ? "classic" : "module" });
  worker = made;
  // A worker of a saved page has an origin of its own and cannot read what the page holds. The core comes compiled.
  if (inside) made.postMessage(Object.fromEntries(Object.entries(inside.files).filter(([name]) => name.endsWith(".js"))));
  // One that was given up has nothing more to say.
  const ours = () => worker === made;
  let runs = false;
  made.addEventListener("error", () => runs && ours() && mend("its worker broke"));
  made.addEventListener("messageerror", () => ours() && mend("its worker was not understood"));
  return new Promise((started, failed) => {
    made.addEventListener("message", (/** @type {MessageEvent<Answered>} */ { data }) => {
      if (!ours()) return;
      if (data.id === 0) {
        runs = data.failed === undefined;
        if (runs) started(undefined);
        else failed(new Error(data.failed));
        return;
      }
      if (data.stopped) {
        mend("the core stopped", data.id);
        return;
      }
      const found = waiting.get(data.id);
      waiting.delete(data.id);
      if (data.failed === undefined) found?.resolve(data.got);
      else found?.reject(new Error(data.failed));
    });
    made.addEventListener("error", () => failed(new Error("the worker does not start")));
    made.postMessage({ id: 0, kind: "start", compiled });
  });
}

/**
 * @param {Worker} whom
 * @param {Work} work
 * @param {(id: number) => void} [named]
 * @returns {Promise<Answer>}
 */
function ask(whom, work, named) {
  asked += 1;
  const id = asked;
  named?.(id);
  return new Promise((resolve, reject) => {
    waiting.set(id, { work, whom, broke: 0, resolve, reject });
    whom.postMessage({ id, ...work });
  });
}

/** @type {Promise<void> | null} */
let running = null;

/**
 * Fetches the core and starts it, here and in the worker; once, however often it is asked for.
 * @returns {Promise<void>}
 */
export function ready() {
  running ??= begin();
  return running;
}

async function begin() {
  const compiled = await compile("planner");
  module = compiled;
  // Neither waits for the other: the page's own core sizes, the worker's plans.
  await Promise.all([engine.start(compiled), beside(compiled)]);
}

/** @param {() => void} told when the core had to be started again */
export function whenRestarted(told) {
  restarted = told;
}

/**
 * Has the planning done beside the page, where that can be.
 * @param {WebAssembly.Module} compiled
 */
async function beside(compiled) {
  try {
    await hire(compiled);
  } catch (error) {
    // An old browser, or a host that forbids workers.
    console.info("planning on the page itself:", error);
    drop("no worker");
  }
}

/**
 * The core cannot be interrupted: its worker goes, and a fresh one takes up all that was asked but
 * the plan given up.
 * @param {Run} run
 */
function giveUp(run) {
  const given = waiting.get(run.id);
  if (!given) return;
  run.given = true;
  waiting.delete(run.id);
  rehire();
  given.resolve(undefined);
  // After the newest plan, which is asked for as soon as the one given up is settled.
  setTimeout(askAgain);
}

/**
 * @param {Work} work
 * @param {(id: number) => void} [named] is told under which number a worker was asked
 * @returns {Promise<Answer>}
 */
async function done(work, named) {
  await ready();
  if (worker) {
    try {
      return await ask(worker, work, named);
    } catch (error) {
      console.info("planning on the page itself:", error);
    }
  }
  return engine.answer(work);
}

/** @param {Answer} json */
const outcomeOf = (json) => JSON.parse(typeof json === "string" ? json : engine.broken("The planner gave no answer."));

/**
 * Plans a scenario, however long it takes.
 * @param {string} text of a scenario file
 * @returns {Promise<Outcome>}
 */
export async function plan(text) {
  return outcomeOf(await done({ kind: "build", text }));
}

/**
 * Plans what is being typed: only the newest such question is sure of an answer.
 * @param {string} text of a scenario file
 * @returns {Promise<Outcome | null>} null when a newer one was asked before the answer came
 */
export function planTyped(text) {
  return new Promise((resolve, reject) => {
    next?.resolve(null);
    next = { text, resolve, reject };
    advance();
  });
}

/** Starts what waits, or sees to it that what is under way makes room in time. */
function advance() {
  if (!next) return;
  if (!now) {
    const mine = next;
    next = null;
    run(mine);
    return;
  }
  if (now.timer !== 0 || !worker) return;
  const late = now;
  late.timer = window.setTimeout(() => giveUp(late), Math.max(0, late.since + PATIENCE_MS - performance.now()));
}

/** @param {Typed} mine */
async function run({ text, resolve, reject }) {
  /** @type {Run} */
  const own = { id: 0, since: performance.now(), timer: 0, given: false };
  now = own;
  try {
    const json = await done({ kind: "build", text }, (id) => (own.id = id));
    resolve(own.given ? null : outcomeOf(json));
  } catch (error) {
    reject(error instanceof Error ? error : new Error(String(error)));
  } finally {
    clearTimeout(own.timer);
    now = null;
    advance();
  }
}

/**
 * A file made of a scenario's plan.
 * @param {string} text of the scenario file
 * @param {string} file `plan.json`, `parts.csv`, `steps.txt`, `ready.csv`, those of the cutting, or `step-svg:N`
 * @param {number} [to] with the layout found in so many steps
 * @returns {Promise<string | undefined>}
 */
export async function exportFile(text, file, to = 0) {
  const got = await done({ kind: "export", text, file, to });
  return typeof got === "string" ? got : undefined;
}

/**
 * A scenario's plan as a binary glTF model.
 * @param {string} text of the scenario file
 * @returns {Promise<Uint8Array<ArrayBuffer> | undefined>}
 */
export async function model(text) {
  const got = await done({ kind: "model", text });
  return got instanceof Uint8Array ? got : undefined;
}

/**
 * What to do about something measured.
 * @param {string} text of the scenario file
 * @param {object} question as the core reads it
 * @returns {Promise<import("./types").Remedy | undefined>}
 */
export async function remedy(text, question) {
  const got = await done({ kind: "remedy", text, question: JSON.stringify(question) });
  return typeof got === "string" ? JSON.parse(got) : undefined;
}

/**
 * @param {string} text of the scenario file
 * @param {number} to steps of the search in all
 * @returns {Promise<import("./types").CutProgress | null>}
 */
export async function cut(text, to) {
  const got = await done({ kind: "cut", text, to });
  return typeof got === "string" ? JSON.parse(got) : null;
}

/**
 * @param {string} text of the scenario file
 * @param {import("./types").Ticks} ticks
 * @returns {Promise<import("./types").AsCut | null>}
 */
export async function asCut(text, { searched, done: steps, spoiled }) {
  const told = JSON.stringify({ done: steps, spoiled });
  const got = await done({ kind: "as-cut", text, to: searched, told });
  return typeof got === "string" ? JSON.parse(got) : null;
}
