// The first visit to an example: its first step stands on the bench before the planner is there, from a plan
// that the host has made of it with the same planner.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { test } from "node:test";
import { firstLoad } from "./first-load.mjs";
import { open, outcome, rest, shop, withShop } from "./harness.mjs";
import { EXAMPLE, ROOT, SITE, scenarios } from "./site.mjs";

const { visit } = shop();
const bench = { scenario: EXAMPLE, stage: "Bench" };
const PLANNER = "pkg/jointwise_planner_bg.wasm";

for (const { name, text } of await scenarios()) {
  test(`${name}: the plan on the host is the one that is kept, of the text that the page plans`, async () => {
    const { scenario, outcome } = JSON.parse(await readFile(join(SITE, "scenarios", "planned", `${name}.json`), "utf8"));
    assert.equal(scenario, JSON.stringify(JSON.parse(text)));
    assert.deepEqual(outcome.plan, JSON.parse(await readFile(join(ROOT, "tests", "expected", name, "plan.json"), "utf8")));
  });
}

test("what is asked for before the planner is what is counted as the first step's weight", () =>
  withShop(async (running) => {
    const { page, problems } = await open(running, bench);
    await rest(page);
    const { step } = await firstLoad();
    const { asked } = running.site;
    const before = asked.slice(0, asked.indexOf(PLANNER));
    // What a browser asks for by itself: the icon and the list beside it.
    const counted = before.filter((file) => !/^icons\/|^icon\.svg$|webmanifest$/.test(file));
    const known = step.map(({ file }) => file).filter((file) => !/^icons\/|^icon\.svg$|webmanifest$/.test(file));
    assert.deepEqual([...new Set(counted)].sort(), known.sort());
    assert.deepEqual(problems, []);
  }));

test("the first step stands there while the planner does not come, and the page says so", () =>
  withShop(async (running) => {
    running.site.instead.set(PLANNER, Buffer.from("not a module"));
    const { page } = await open(running, bench);
    const { plan } = await outcome(page);
    await page.locator("figure canvas").waitFor();
    await page.getByText(plan.steps[0].text).first().waitFor();
    await page.getByText("The planner cannot be loaded").waitFor();
  }));

test("a size that was changed is planned here, and not taken from the host", () =>
  visit({ ...bench, stage: "Size" }, async (page) => {
    const first = await outcome(page);
    await page.getByLabel("Toe kick height").fill("5");
    await page.waitForFunction((title) => window.jointwise.outcome.plan && JSON.stringify(window.jointwise.outcome.plan) !== title, JSON.stringify(first.plan));
    const changed = await outcome(page);
    await page.reload();
    await page.waitForFunction(() => window.jointwise?.outcome && window.jointwise.planner !== "waits");
    assert.deepEqual((await outcome(page)).plan, changed.plan);
  }));
