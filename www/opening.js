// What the page begins with: a build that the address carries, what was kept, or an example.
import { inside } from "./inside.js";
import { lastUsed, recall } from "./progress.js";
import { exampleName, parse } from "./scenario.js";
import { carried, unpack } from "./share/link.js";
import { w } from "./words.js";

/** @typedef {import("./types").State} State */
/** @typedef {import("./types").StageName} StageName */
/** @typedef {import("./types").Json} Json */

/** @type {StageName[]} In the order of the job; last the numbers behind it. */
const NAMES = ["measure", "size", "cut", "bench", "install", "numbers"];

/**
 * How a scenario is taken in.
 * @typedef {object} Hands
 * @property {{ get(): State, set(change: Partial<State>): void }} store
 * @property {(scenario: Json, example: string, step?: number, before?: string, notice?: string, ticks?: import("./types").Ticks) => Promise<void>} take
 * @property {(scenario: Json, step: number, notice: string) => Promise<void>} takeOwn
 * @property {(name: string) => Promise<void>} loadExample
 */

/** @returns {StageName} */
export function stageInHash() {
  const name = location.hash.slice(1);
  return NAMES.find((one) => one === name) ?? "measure";
}

/** Opens the build that the address carries, if it does.
 * @param {Hands} hands
 * @returns {Promise<boolean>} */
export async function openCarried({ store, takeOwn }) {
  const found = carried(location.hash);
  if (!found) return false;
  history.replaceState(null, "", "#bench");
  store.set({ stage: "bench" });
  try {
    const scenario = parse(await unpack(found.packed));
    const here = recall("");
    // The same build again only goes to its step.
    await takeOwn(scenario, found.step, here?.scenario === JSON.stringify(scenario) ? "" : w.page.byLink);
    return true;
  } catch (error) {
    console.info("the link cannot be opened:", error);
    store.set({ notice: w.page.badLink });
    return false;
  }
}

/**
 * @param {string} name
 * @returns {Promise<Json>}
 */
export async function fetchExample(name) {
  const answer = await fetch(new URL(`./scenarios/${encodeURIComponent(name)}.json`, import.meta.url));
  if (!answer.ok) throw new Error(`${answer.status}`);
  return answer.json();
}

/**
 * An example with the plan that the host has made of it. Once the site is kept on the device the planner is
 * there sooner than an answer of the host.
 * @param {string} name
 * @returns {Promise<{ scenario: string, outcome: import("./types").Outcome } | null>}
 */
export async function fetchPlanned(name) {
  if (inside || navigator.serviceWorker?.controller) return null;
  try {
    const answer = await fetch(new URL(`./scenarios/planned/${encodeURIComponent(name)}.json`, import.meta.url));
    return answer.ok ? await answer.json() : null;
  } catch {
    // It is planned here then.
    return null;
  }
}

/**
 * The examples that the site offers.
 * @returns {Promise<State["examples"]>}
 */
export async function fetchList() {
  if (inside) return [];
  try {
    const answer = await fetch(new URL("./scenarios/index.json", import.meta.url));
    return answer.ok ? await answer.json() : [];
  } catch (error) {
    // The page works without examples: a file of one's own may be opened.
    console.error(error);
    return [];
  }
}

/** Reads what there is: examples, what was kept, what the address asks for.
 * @param {Hands} hands
 * @param {Promise<State["examples"]>} listed */
export async function begin(hands, listed) {
  const { store, take, loadExample } = hands;
  if (inside) {
    const kept = recall("");
    if (!location.hash) history.replaceState(null, "", `#${kept?.stage || "bench"}`);
    store.set({ stage: stageInHash() });
    await take(JSON.parse(kept?.scenario ?? inside.scenario), "", kept?.step ?? inside.step, kept?.good);
    return;
  }
  store.set({ examples: await listed });
  if (await openCarried(hands)) return;
  const { notice: told } = store.get();
  const first = exampleName(store.get().examples[0]);
  const name = new URL(location.href).searchParams.get("scenario") ?? lastUsed() ?? first;
  const kept = recall(name);
  if (!location.hash && kept && NAMES.some((one) => one === kept.stage)) history.replaceState(null, "", `#${kept.stage}`);
  store.set({ stage: stageInHash() });
  if (name === "" && kept) await take(JSON.parse(kept.scenario), "", kept.step, kept.good, "", kept.ticks);
  else await loadExample(name || first);
  // That a link was no good is worth knowing beside whatever is shown instead.
  if (told === w.page.badLink) store.set({ notice: told });
  if (store.get().scenario !== null) return;
  const { notice } = store.get();
  await take({ format: "jointwise-scenario/1" }, "");
  store.set({ notice });
}
