// What the page costs: `cargo xtask measure` prints a table, with `--json` the same as JSON. What each
// figure says, and what it does not, is in docs/performance.md.

import { firstLoad, whole } from "./first-load.mjs";
import { benchSteps } from "./bench.mjs";
import { launch, open, outcome, rest } from "./harness.mjs";
import { load } from "./module.mjs";
import { EXAMPLE, scenarios } from "./site.mjs";

/** The scenario with the most parts. */
const FULL = "workbench";

/** How many times slower than this machine the browser's processor is made. */
const SLOWED = 4;

/** How often what is short is done again: the middle one counts. */
const AGAIN = 5;

const round = (number) => Math.round(number * 10) / 10;
const middle = (all) => round([...all].sort((a, b) => a - b)[all.length >> 1] ?? 0);

/** Processor time of this process that a call takes: other work on the machine is not in it. */
function processor(call) {
  const before = process.cpuUsage();
  call();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** Plans one scenario and searches its cutting to the end, in a module of its own. */
async function planned({ name, text }) {
  const module = await load();
  // Initialised already: this hands back the exports.
  const { memory } = module.initSync({ module: undefined });
  const session = new module.Session();
  let start = performance.now();
  const { plan } = JSON.parse(session.build(text));
  const plan_ms = round(performance.now() - start);
  if (!plan) throw new Error(`${name}: no plan`);
  const memory_mb = round(memory.buffer.byteLength / 2 ** 20);
  // As each key asks for sizes, and a breath later for a plan; the module runs hot by then.
  const often = (call) => middle(Array.from({ length: AGAIN }, () => processor(call)));
  const draft_ms = often(() => session.draft(text));
  const replan_ms = often(() => new module.Session().build(text));
  start = performance.now();
  let cut = { searched: 0, more: plan.cutting != null };
  while (cut.more) cut = JSON.parse(session.cut(cut.searched + 500));
  const cut_ms = round(performance.now() - start);
  return { name, parts: plan.parts.length, states: plan.proof.states, plan_ms, draft_ms, replan_ms, memory_mb, cut_steps: cut.searched, cut_ms };
}

/** From asking for the page until there is a plan, until its first step stands on the bench, and until the planner runs. */
async function loaded() {
  const { site, browser, close } = await launch();
  try {
    const context = await browser.newContext({ viewport: { width: 1024, height: 768 }, serviceWorkers: "block" });
    const page = await context.newPage();
    page.setDefaultTimeout(300_000);
    const devtools = await context.newCDPSession(page);
    await devtools.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
    const start = performance.now();
    await page.goto(`${site.address}?scenario=${EXAMPLE}#bench`);
    const load_ms = round(performance.now() - start);
    await page.waitForFunction(() => window.jointwise?.outcome);
    const planned_ms = round(performance.now() - start);
    // The labels are laid over the picture when it is drawn.
    await page.waitForFunction(() => document.querySelector("figure canvas:not([hidden])")?.width > 300 && document.querySelectorAll("figure .labels > *").length > 0);
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    const first_step_ms = round(performance.now() - start);
    await page.waitForFunction(() => window.jointwise.planner !== "waits");
    return { slowed: SLOWED, scenario: EXAMPLE, load_ms, planned_ms, first_step_ms, planner_ms: round(performance.now() - start) };
  } finally {
    await close();
  }
}

/** Keys typed into one box on Size, as a maker corrects a length. */
const KEYS = ["3", "3 1/2", "3", "4", "4 1/4", "4 1/2", "4", "5"];

/**
 * What a key costs on the page: until the sizes stand there, until the plan is there, and the longest time that
 * the page answered nothing. A task shorter than 50 ms is none that the browser calls long.
 * @param {number} slowed how many times slower the page's processor is made
 */
async function typed(slowed) {
  const { site, browser, close } = await launch();
  try {
    const context = await browser.newContext({ viewport: { width: 1024, height: 768 }, serviceWorkers: "block" });
    const page = await context.newPage();
    page.setDefaultTimeout(300_000);
    await page.goto(`${site.address}?scenario=${EXAMPLE}#size`);
    await page.waitForFunction(() => window.jointwise?.outcome && window.jointwise.planner !== "waits");
    const devtools = await context.newCDPSession(page);
    await devtools.send("Emulation.setCPUThrottlingRate", { rate: slowed });
    const found = await page.evaluate(async (keys) => {
      /** @type {number[]} */
      const long = [];
      new PerformanceObserver((list) => long.push(...list.getEntries().map((entry) => entry.duration))).observe({ type: "longtask" });
      const box = [...document.querySelectorAll("label")].find((label) => label.textContent === "Toe kick height")?.control;
      const [sized, planned] = [[], []];
      for (const key of keys) {
        const before = window.jointwise.outcome;
        const start = performance.now();
        box.value = key;
        box.dispatchEvent(new Event("input", { bubbles: true }));
        sized.push(performance.now() - start);
        while (window.jointwise.outcome === before) await new Promise((done) => setTimeout(done, 1));
        planned.push(performance.now() - start);
        await new Promise((done) => setTimeout(done, 100));
      }
      return { sized, planned, long };
    }, KEYS);
    const most = (all) => round(Math.max(0, ...all));
    return { slowed, keys: KEYS.length, key_ms: middle(found.sized), key_most_ms: most(found.sized), plan_ms: middle(found.planned), long_tasks: found.long.length, longest_ms: most(found.long) };
  } finally {
    await close();
  }
}

/** What a frame of a part that travels asks of the page's script: how long half of the frames take at most,
 * and the longest but one in twenty. The steps are those that bring in most parts and screws. */
async function framed() {
  const running = await launch();
  try {
    const { page, context } = await open(running, { scenario: FULL, stage: "Bench" });
    await rest(page);
    const { plan } = await outcome(page);
    const steps = benchSteps(plan);
    const busy = [...steps].sort((a, b) => b.fasteners.length + b.parts.length - a.fasteners.length - a.parts.length).slice(0, 3);
    await page.evaluate(async () => {
      const { app } = await import(new URL("./planning.js", document.baseURI).href);
      const tick = app.picture.tick;
      window.spent = [];
      app.picture.tick = (now) => {
        const start = performance.now();
        tick.call(app.picture, now);
        window.spent.push(performance.now() - start);
      };
    });
    const motions = [];
    const firsts = [];
    for (const { n } of [...busy, steps.at(-1)]) {
      await page.evaluate(async (n) => {
        const { app } = await import(new URL("./planning.js", document.baseURI).href);
        window.spent = [];
        app.goStep(n, true);
      }, n);
      await rest(page);
      const [first, ...others] = await page.evaluate(() => window.spent);
      firsts.push(first);
      motions.push(...others);
    }
    const idle = await page.evaluate(async () => {
      window.spent = [];
      await new Promise((done) => setTimeout(done, 1000));
      return window.spent.length;
    });
    await context.close();
    const sorted = (all) => [...all].sort((a, b) => a - b);
    const at = (all, share) => round(sorted(all)[Math.floor((all.length - 1) * share)]);
    return { scenario: FULL, parts: plan.parts.length, frames: motions.length, frame_ms: at(motions, 0.5), frame_ms_95: at(motions, 0.95), first_frame_ms: at(firsts, 1), idle_frames: idle };
  } finally {
    await running.close();
  }
}

function table(head, rows) {
  const lines = [head, ...rows.map((row) => head.map((name) => String(row[name])))];
  const widths = head.map((_, column) => Math.max(...lines.map((line) => line[column].length)));
  const padded = (line) => line.map((cell, column) => (column === 0 ? cell.padEnd(widths[0]) : cell.padStart(widths[column]))).join("  ");
  return `${lines.map(padded).join("\n")}\n`;
}

const { step, behind } = await firstLoad();
const weights = { first_step: whole(step), all: whole([...step, ...behind]) };
const found = { step, behind, weights, page: await loaded(), typed: [await typed(1), await typed(SLOWED)], frame: await framed(), scenarios: [] };
for (const scenario of await scenarios()) found.scenarios.push(await planned(scenario));

if (process.argv.includes("--json")) {
  console.log(JSON.stringify(found, null, 2));
} else {
  console.log(table(["file", "raw", "brotli"], [...step, { file: "first step", ...weights.first_step }, ...behind, { file: "all", ...weights.all }]));
  console.log(table(Object.keys(found.page), [found.page]));
  console.log(table(Object.keys(found.typed[0]), found.typed));
  console.log(table(Object.keys(found.frame), [found.frame]));
  console.log(table(Object.keys(found.scenarios[0]), found.scenarios));
}
