// The page of numbers: reachable from every stage, a row for each check that was run, findings at the stage they
// concern; what is accepted with a reason stays in the file; axe-core finds no fault with it.

import assert from "node:assert/strict";
import { test } from "node:test";
import axe from "axe-core";
import { SIZES, STAGES, go, outcome, shop } from "./harness.mjs";

const { visit } = shop();
const scenario = "mudroom-bins";

for (const size of SIZES) {
  test(`every check with formula and source, from every stage, ${size.width}×${size.height}`, () =>
    visit({ ...size, scenario, stage: "Measure" }, async (page) => {
      const link = page.getByRole("link", { name: "Numbers" });
      for (const stage of STAGES) {
        await go(page, stage);
        const box = await link.boundingBox();
        assert.ok(box && box.x >= 0 && box.x + box.width <= size.width && Math.min(box.width, box.height) >= 47.5, `${stage}: ${JSON.stringify(box)}`);
      }
      await link.click();
      await page.locator('.to-numbers[aria-current="page"]').waitFor();
      const { checks } = await outcome(page);
      const rows = page.locator("table.numbers tbody tr");
      assert.equal(await rows.count(), checks.length);
      const text = await page.locator("main").innerText();
      const flat = (/** @type {string} */ part) => part.replaceAll(/\s+/g, " ");
      for (const row of checks) {
        for (const part of [row.formula, row.source, row.result]) assert.ok(flat(text).includes(flat(part)), `${row.rule}: ${part}`);
      }
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "it runs over the side");
      await page.evaluate(axe.source);
      const { violations } = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
      assert.deepEqual(violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes[0].html}`), []);
    }));
}

test("a remark is accepted with its reason, stays listed, and is taken back", () =>
  visit({ scenario, stage: "Cut" }, async (page) => {
    const list = page.getByRole("list", { name: "What the checks say" });
    const dust = list.getByRole("listitem").filter({ hasText: "fine dust" });
    await dust.getByText("Accept it", { exact: true }).click();
    await dust.getByRole("textbox").fill("A mask, and outdoors.");
    await dust.getByRole("button", { name: "Accept" }).click();
    await list.getByText("Your reason: A mask, and outdoors.").waitFor();
    const said = (await outcome(page)).findings.find(({ code }) => code === "dust");
    assert.equal(said.accepted, "A mask, and outdoors.");
    await page.getByRole("link", { name: "Numbers" }).click();
    await page.getByText("Your reason: A mask, and outdoors.").waitFor();
    await page.getByRole("button", { name: "Take it back" }).click();
    await page.getByText("Your reason").waitFor({ state: "detached" });
    assert.equal((await outcome(page)).findings.find(({ code }) => code === "dust").accepted, undefined);
  }));

test("what concerns a step stands in its words", () =>
  visit({ scenario, stage: "Bench" }, async (page) => {
    const { findings } = await outcome(page);
    const lift = findings.find(({ code }) => code === "lift");
    assert.ok(lift.step);
    await page.evaluate((n) => document.querySelectorAll("#all-steps li button")[n - 1].click(), lift.step);
    await page.locator(".words", { hasText: lift.message.slice(0, 30) }).waitFor();
  }));
