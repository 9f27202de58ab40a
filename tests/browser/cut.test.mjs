// Cut: a layout at once, a better one while one looks, steps to tick off, and what is left planned anew.

import assert from "node:assert/strict";
import { test } from "node:test";
import { go, outcome, replanned, shop } from "./harness.mjs";
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
    const { plan, findings } = await replanned(page, () => page.getByRole("button", { name: "Plan the rest anew" }).click());
    assert.ok(plan, JSON.stringify(findings));
    const wanted = plan.cutting.sheets.flatMap(({ parts }) => parts);
    assert.equal(wanted.length, before.plan.cutting.sheets.flatMap(({ parts }) => parts).length - made + 1);
    assert.equal(await page.locator(".saw-steps input:checked").count(), 0);
  }));

test("a layout that did not change leaves in place what is looked at, and a tick its box", () =>
  visit({ scenario: small, stage: "Cut" }, async (page) => {
    await searched(page);
    const focused = () => page.evaluate(() => document.activeElement?.closest("label, button")?.textContent ?? "nothing");
    const large = page.locator(".sheet-frame").first();
    const button = page.getByRole("button", { name: "Enlarge" }).first();
    await button.click();
    await large.evaluate((frame) => (frame.scrollLeft = 60));
    // As after a slice of the search that found nothing better.
    await page.evaluate(async () => {
      const { store } = await import(new URL("./planning.js", location.href).href);
      const { cutting, ...rest } = store.get();
      store.set({ cutting: structuredClone({ ...cutting, searched: cutting.searched + 1 }), search: { ...rest.search } });
    });
    assert.equal(await focused(), "Show whole");
    assert.equal(await large.evaluate((frame) => frame.scrollLeft), 60);
    for (const box of await page.locator(".saw-steps input").all()) await box.check();
    assert.ok((await page.locator("rect.sheet-part.made").count()) > 0);
    const spoiled = page.getByRole("checkbox", { name: "spoiled" }).nth(1);
    await spoiled.focus();
    await page.keyboard.press("Space");
    assert.ok(await spoiled.isChecked());
    assert.equal(await focused(), "spoiled");
    assert.equal(await large.evaluate((frame) => frame.scrollLeft), 60);
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

test("fewer steps of the search give the layout of those steps again, and what is cut from it", async () => {
  const { Session } = await load();
  for (const { text } of await scenarios()) {
    const session = new Session();
    const { plan } = JSON.parse(session.build(text));
    if (!plan?.cutting) continue;
    const answers = (steps) => {
      const progress = session.cut(steps);
      return [progress, session.export("cuts.csv"), session.as_cut('{"done":[1,2,3],"spoiled":[]}')];
    };
    const before = answers(400);
    const later = answers(6000);
    if (later[1] === before[1]) continue;
    // As when a step is ticked off while the search is already further than what is shown.
    assert.deepEqual(answers(400), before);
    assert.deepEqual(answers(6000), later);
    // No fewer than the layout had that came with the plan.
    assert.deepEqual(JSON.parse(session.cut(0)).cutting, plan.cutting);
    return;
  }
  assert.fail("no example has a layout that the search makes better");
});

test("the module searches a workbench's layout to its end, and makes it no dearer", async () => {
  const { text } = (await scenarios()).find(({ name }) => name === "workbench");
  const { Session } = await load();
  const session = new Session();
  const { cutting } = JSON.parse(session.build(text)).plan;
  const found = JSON.parse(session.cut(1e6));
  assert.equal(found.more, false);
  assert.ok(found.searched > cutting.searched);
  assert.ok(found.cutting.score.price <= cutting.score.price);
});
