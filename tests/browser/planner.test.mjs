// Plans are worked out beside the page, so that typing never waits; where a browser has no workers,
// or a host forbids them, the page works them out itself and says the same.

import assert from "node:assert/strict";
import { test } from "node:test";
import { outcome, shop } from "./harness.mjs";
import { EXAMPLE } from "./site.mjs";

const { visit } = shop();
const scenario = EXAMPLE;

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

test("a plan that takes long is given up for what is typed next, and nothing else asked is lost", () =>
  visit(
    {
      scenario,
      stage: "Measure",
      // A worker that takes the plan of one title and never comes back with it.
      setup: () => {
        const Real = window.Worker;
        window.hired = [];
        window.Worker = class extends Real {
          constructor(...given) {
            super(...given);
            window.hired.push("runs");
            this.place = window.hired.length - 1;
          }
          postMessage(asked) {
            if (asked.kind === "build" && JSON.parse(asked.text).title === "first") this.stuck = true;
            if (!this.stuck) super.postMessage(asked);
          }
          terminate() {
            window.hired[this.place] = "gone";
            super.terminate();
          }
        };
      },
    },
    async (page) => {
      const said = [];
      page.on("console", (message) => said.push(message.text()));
      const { before, after, took, file, newest, hired } = await page.evaluate(async () => {
        const planner = await import(new URL("./planner.js", location.href).href);
        const kept = Object.entries(localStorage).find(([key]) => key.includes("#"))[1];
        const text = JSON.parse(kept).scenario;
        const titled = (title) => JSON.stringify({ ...JSON.parse(text), title });
        const start = performance.now();
        const first = planner.planTyped(titled("first"));
        const file = planner.exportFile(text, "steps.txt");
        const second = planner.planTyped(titled("second"));
        const third = planner.planTyped(titled("third"));
        const before = await first;
        const took = performance.now() - start;
        const [after, newest] = [await second, await third];
        return { before, after, took, file: await file, newest, hired: window.hired };
      });
      assert.equal(before, null);
      assert.equal(after, null, "the one overtaken while it waited");
      assert.ok(took >= 290, `given up after ${took} ms`);
      assert.equal(newest.plan?.title, "third");
      assert.match(file, /Steps/);
      assert.deepEqual(hired, ["gone", "runs"]);
      assert.deepEqual(said, []);
      assert.equal(page.workers().length, 1);
      // The page itself still plans what is typed.
      await page.evaluate(() => {
        window.before = window.jointwise.outcome;
      });
      await firstWidth(page).fill("610 mm");
      await page.waitForFunction(() => window.jointwise.outcome !== window.before);
    },
  ));
