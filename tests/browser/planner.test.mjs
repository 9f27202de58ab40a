// Plans are worked out beside the page, so that typing never waits; where a browser has no workers,
// or a host forbids them, the page works them out itself and says the same.

import assert from "node:assert/strict";
import { test } from "node:test";
import { outcome, shop } from "./harness.mjs";
import { scenarios } from "./site.mjs";

const { visit } = shop();
const [{ name: scenario }] = await scenarios();

const firstWidth = (page) => page.getByLabel(/^Width \d+$/).first();

/** The worker's own plan, to hold the others against. */
const planned = () => visit({ scenario, stage: "Measure" }, async (page) => (await outcome(page)).plan);

test("the page asks a worker, and the box takes letters while it plans", () =>
  visit({ scenario, stage: "Measure" }, async (page) => {
    assert.equal(page.workers().length, 1);
    const box = firstWidth(page);
    await page.evaluate(() => {
      window.before = window.jointwise.outcome;
    });
    await box.fill("");
    // Slower than the breath before planning: each letter but the last is planned for nothing.
    await box.pressSequentially("600 mm", { delay: 170 });
    assert.equal(await box.inputValue(), "600 mm");
    const inThere = () => window.jointwise.outcome !== window.before && window.jointwise.outcome.plan;
    await page.waitForFunction(inThere);
    // What is shown in the end is what was typed in the end.
    const kept = await page.evaluate(() => Object.entries(localStorage).find(([key]) => key.includes("#"))[1]);
    assert.match(JSON.parse(kept).scenario, /600 mm/);
    await page.waitForTimeout(500);
    const { findings } = await outcome(page);
    assert.deepEqual(findings.filter(({ where }) => where.startsWith("space.widths")), []);
  }));

const without = [
  ["no workers at all", () => delete window.Worker],
  [
    "no modules in workers",
    () => {
      window.Worker = class extends EventTarget {
        constructor() {
          super();
          setTimeout(() => this.dispatchEvent(new Event("error")), 5);
        }
        postMessage() {}
        terminate() {}
      };
    },
  ],
];
for (const [what, setup] of without) {
  test(`${what}: the page plans by itself`, async () => {
    const plan = await planned();
    assert.ok(plan);
    await visit({ scenario, stage: "Measure", setup }, async (page) => {
      assert.equal(page.workers().length, 0);
      assert.deepEqual((await outcome(page)).plan, plan);
    });
  });
}
