// What the page costs: `cargo xtask measure` prints a table, with `--json` the same as JSON. What each
// figure says, and what it does not, is in docs/performance.md.

import { firstLoad, whole } from "./first-load.mjs";
import { launch } from "./harness.mjs";
import { load } from "./module.mjs";
import { EXAMPLE, scenarios } from "./site.mjs";

/** How many times slower than this machine the browser's processor is made. */
const SLOWED = 4;

const round = (number) => Math.round(number * 10) / 10;

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
  start = performance.now();
  let cut = { searched: 0, more: plan.cutting != null };
  while (cut.more) cut = JSON.parse(session.cut(cut.searched + 500));
  const cut_ms = round(performance.now() - start);
  return { name, parts: plan.parts.length, states: plan.proof.states, plan_ms, memory_mb, cut_steps: cut.searched, cut_ms };
}

/** From asking for the page until there is a plan, and until its first step stands on the bench. */
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
    await page.locator('figure [role="img"]').first().waitFor();
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    return { slowed: SLOWED, scenario: EXAMPLE, load_ms, planned_ms, first_step_ms: round(performance.now() - start) };
  } finally {
    await close();
  }
}

function table(head, rows) {
  const lines = [head, ...rows.map((row) => head.map((name) => String(row[name])))];
  const widths = head.map((_, column) => Math.max(...lines.map((line) => line[column].length)));
  const padded = (line) => line.map((cell, column) => (column === 0 ? cell.padEnd(widths[0]) : cell.padStart(widths[column]))).join("  ");
  return `${lines.map(padded).join("\n")}\n`;
}

const files = await firstLoad();
const found = { files, first_load: whole(files), page: await loaded(), scenarios: [] };
for (const scenario of await scenarios()) found.scenarios.push(await planned(scenario));

if (process.argv.includes("--json")) {
  console.log(JSON.stringify(found, null, 2));
} else {
  console.log(table(["file", "raw", "brotli"], [...files, { file: "all", ...found.first_load }]));
  console.log(table(Object.keys(found.page), [found.page]));
  console.log(table(Object.keys(found.scenarios[0]), found.scenarios));
}
