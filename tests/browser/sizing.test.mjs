// Size: another kind of unit, undo and redo, two variants side by side, and sizes that come at once.

import assert from "node:assert/strict";
import { test } from "node:test";
import { replanned, shop } from "./harness.mjs";

const { visit } = shop();

const row = (page, label) => page.locator(".sizes tr", { hasText: label }).locator("td").first().innerText();

test("every kind of unit can be chosen and is sized", () =>
  visit({ scenario: "mudroom-bins", stage: "Size" }, async (page) => {
    const kinds = page.getByLabel("Kind of unit");
    const ids = await kinds.locator("option").evaluateAll((all) => all.map((one) => one.value));
    assert.ok(ids.length >= 8, `${ids.length} kinds`);
    const seen = new Set();
    for (const id of ids.slice(1)) {
      await kinds.selectOption(id);
      assert.equal(await page.getByLabel("Kind of unit").inputValue(), id, "what was chosen is what is shown");
      await page.waitForFunction(() => document.querySelectorAll(".size-drawing").length === 2);
      seen.add(await page.locator(".size-drawing rect").count());
    }
    assert.ok(seen.size >= 5, "the kinds are drawn alike");
  }));

test("a change is undone and made again, a run of keys as one", () =>
  visit({ scenario: "mudroom-bins", stage: "Size" }, async (page) => {
    const undo = page.getByRole("button", { name: "Undo", exact: true });
    const redo = page.getByRole("button", { name: "Redo", exact: true });
    const toe = () => page.getByLabel("Toe kick height");
    assert.ok(await undo.isDisabled(), "nothing to undo yet");
    await toe().fill("");
    await toe().pressSequentially("4 1/2");
    await replanned(page, () => page.getByLabel("Box side height").fill("9"));
    await undo.click();
    assert.equal(await page.getByLabel("Box side height").inputValue(), "8");
    assert.equal(await toe().inputValue(), "4 1/2");
    await page.keyboard.press("Control+z");
    assert.equal(await toe().inputValue(), "4");
    await redo.click();
    await redo.click();
    assert.equal(await toe().inputValue(), "4 1/2");
    assert.equal(await page.getByLabel("Box side height").inputValue(), "9");
    assert.ok(await redo.isDisabled(), "nothing more to make again");
  }));

test("sizes follow a key at once, and the plan comes after", () =>
  visit({ scenario: "mudroom-bins", stage: "Size" }, async (page) => {
    const before = await row(page, "Carcass, inside height");
    await page.getByLabel("Toe kick height").fill("5");
    assert.notEqual(await row(page, "Carcass, inside height"), before, "the size waits for the plan");
  }));

test("two variants stand side by side", () =>
  visit({ scenario: "mudroom-bins", stage: "Size" }, async (page) => {
    await page.getByRole("button", { name: "Keep for comparing" }).click();
    await replanned(page, () => page.getByLabel("Toe kick height").fill("5"));
    const table = page.getByRole("region", { name: "Two variants compared" });
    assert.match(await table.innerText(), /4 parts differ: toe-kick board, rear board, back, front\./);
    assert.match(await table.innerText(), /Weight, empty/);
    const costs = () => table.locator("tr", { hasText: "Cost of what is to be bought" }).locator("td").allInnerTexts();
    assert.deepEqual(await costs(), ["no price known", "no price known"]);
    await page.getByRole("button", { name: "Stop comparing" }).click();
    assert.equal(await table.count(), 0);
  }));
