// Cut: a layout at once, a better one while one looks, steps to tick off, and what is left planned anew.

import assert from "node:assert/strict";
import { test } from "node:test";
import { go, outcome, shop } from "./harness.mjs";
import { load } from "./module.mjs";
import { scenarios } from "./site.mjs";

const { visit } = shop();
const small = "tool-tray";

/** Waits until the search for a layout has come to its end. */
const searched = (page) => page.locator('.looking[data-running="false"]').waitFor({ state: "attached" });

test("the sheets, the steps, the parts and what to buy are there, and the search ends by itself", () =>
  visit({ scenario: small, stage: "Cut" }, async (page) => {
    await page.locator("svg.sheet-plan").first().waitFor();
    const { plan } = await outcome(page);
    const { cutting } = plan;
    assert.equal(await page.locator(".saw-steps > li").count(), cutting.steps.length);
    await searched(page);
    assert.match(await page.locator(".claim").innerText(), /^\d+ sheets?\. /);
    const drawn = await page.locator("rect.sheet-part").count();
    const panels = plan.parts.filter(({ kind }) => kind === "panel").length;
    assert.equal(drawn, panels, "every panel lies on a sheet");
    assert.equal(await page.locator(".shopping tbody tr").count(), cutting.shopping.length);
    // Sorted by length, and the other way round.
    const lengths = () => page.locator("table.parts:not(.shopping) tbody tr td:nth-child(3)").allInnerTexts();
    await page.getByRole("button", { name: "Length" }).click();
    const up = await lengths();
    await page.getByRole("button", { name: "Length" }).click();
    assert.deepEqual([...(await lengths())].map(Number.parseFloat), up.map(Number.parseFloat).sort((a, b) => b - a));
    await page.getByRole("button", { name: "Enlarge" }).first().click();
    assert.ok(await page.locator(".sheet-frame.large").first().evaluate((frame) => frame.scrollWidth > frame.clientWidth));
  }));

test("what is cut is kept, and a spoiled part is laid out again", () =>
  visit({ scenario: small, stage: "Cut" }, async (page) => {
    await searched(page);
    const steps = page.locator(".saw-steps > li");
    const boxes = steps.locator("input");
    const before = await outcome(page);
    for (const box of await boxes.all()) await box.check();
    const spoiled = page.getByRole("checkbox", { name: "spoiled" });
    const made = await spoiled.count();
    assert.ok(made > 1);
    await spoiled.first().check();
    // Ticks outlast the tab.
    await page.reload();
    await page.locator(".saw-steps input:checked").first().waitFor();
    assert.equal(await page.getByRole("checkbox", { name: "spoiled", checked: true }).count(), 1);
    await page.evaluate(() => {
      window.before = window.jointwise.outcome;
    });
    await page.getByRole("button", { name: "Plan the rest anew" }).click();
    await page.waitForFunction(() => window.jointwise.outcome !== window.before);
    const { plan, findings } = await outcome(page);
    assert.ok(plan, JSON.stringify(findings));
    const wanted = plan.cutting.sheets.flatMap(({ parts }) => parts);
    assert.equal(wanted.length, before.plan.cutting.sheets.flatMap(({ parts }) => parts).length - made + 1);
    assert.equal(await page.locator(".saw-steps input:checked").count(), 0);
  }));

test("bad stock is told beside its box, and the rest is laid out all the same", () =>
  visit({ scenario: small, stage: "Cut" }, async (page) => {
    await page.getByText("Sheets, scraps and saw").click();
    await page.getByRole("button", { name: "Add a sheet" }).click();
    await page.getByLabel("Price of one").fill("-5");
    await page.getByText("which is no price").first().waitFor();
    assert.ok((await page.locator("rect.sheet-part").count()) > 0);
    await page.getByLabel("Kerf").fill("0");
    await page.getByText("every blade takes a slot").first().waitFor();
    await go(page, "Bench");
    await go(page, "Cut");
    assert.ok((await page.locator("rect.sheet-part").count()) > 0);
  }));

test("the module lays out a workbench in the time that a page has", async () => {
  const { text } = (await scenarios()).find(({ name }) => name === "workbench");
  const { Session } = await load();
  const session = new Session();
  const outcome = JSON.parse(session.build(text));
  const pieces = outcome.plan.cutting.sheets.flatMap(({ parts }) => parts).length;
  let since = performance.now();
  session.cut(outcome.plan.cutting.searched);
  const first = performance.now() - since;
  since = performance.now();
  const found = JSON.parse(session.cut(1e6));
  const final = performance.now() - since;
  console.log(`${pieces} parts: first ${first.toFixed(0)} ms, final ${final.toFixed(0)} ms after ${found.searched} steps`);
  assert.equal(found.more, false);
  assert.ok(found.cutting.score.price <= outcome.plan.cutting.score.price);
  // The aim is 50 ms and 2 s on a free machine; a busy one takes longer.
  assert.ok(first < 1000 && final < 20_000, `first ${first} ms, final ${final} ms`);
});
