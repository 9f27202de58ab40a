// What is typed is planned at once; what cannot be read is told beside its field, stays as typed,
// and costs neither the last good plan nor the way back to it.

import assert from "node:assert/strict";
import { test } from "node:test";
import { assertShows } from "./bench.mjs";
import { go, outcome, shop } from "./harness.mjs";
import { scenarios } from "./site.mjs";

const { visit } = shop();
const examples = await scenarios();

/** Types into a box and waits for what the core makes of it. */
async function retype(page, box, text) {
  await page.evaluate(() => {
    window.before = window.jointwise.outcome;
  });
  await box.fill(text);
  await page.waitForFunction(() => window.jointwise.outcome !== window.before);
}

/** The measured widths of the opening. */
const widths = (page) => page.getByLabel(/^Width \d+$/);

/** From side to side of the main body, without what is applied to its front, in micrometres. */
function outerWidth(plan) {
  const boxes = plan.parts.filter(({ group, kind }) => group === "main" && kind === "panel").flatMap((part) => part.boxes);
  return Math.max(...boxes.map((box) => box[3])) - Math.min(...boxes.map((box) => box[0]));
}

const sizes = (plan) => new Map(plan.parts.map(({ id, length, width, thickness }) => [id, `${length} ${width} ${thickness}`]));

for (const { name, text } of examples.filter(({ text }) => JSON.parse(text).piece)) {
  test(`${name}: a listed piece is drawn from its parts, and no gap is asked for`, () =>
    visit({ scenario: name, stage: "Measure" }, async (page) => {
      const { sizes } = await outcome(page);
      const { parts } = JSON.parse(text).piece;
      assert.equal(await widths(page).count(), 0);
      for (const view of await page.locator(".drawing").all()) assert.equal(await view.locator("rect.part").count(), parts.length);
      const wide = sizes.find(({ id }) => id === "piece-width");
      assert.match(await page.locator(".measure table").innerText(), new RegExp(`Outside width\\s+${wide.text}`));
      await go(page, "Size");
      await page.getByText(`All ${parts.length} parts`).click();
      assert.equal(await page.locator(".more[open] tbody tr").count(), parts.length);
    }));
}

for (const { name, text } of examples.filter(({ text }) => !JSON.parse(text).piece)) {
  // A width pinned in the file holds, however wide the opening.
  const pinned = JSON.parse(text).build.carcass?.width !== undefined;
  test(`${name}: a wider opening gives ${pinned ? "the pinned width" : "other sizes"}`, () =>
    visit({ scenario: name, stage: "Measure" }, async (page) => {
      const { plan: old } = await outcome(page);
      assert.ok(old, "no plan to begin with");
      const millimetres = Math.round(outerWidth(old) / 1000) + 40;
      const boxes = await widths(page).all();
      assert.ok(boxes.length > 0, "no box for the width of the opening");
      for (const box of boxes) await retype(page, box, `${millimetres} mm`);
      const { plan, findings } = await outcome(page);
      assert.ok(plan, `no plan: ${JSON.stringify(findings)}`);
      if (pinned) {
        assert.deepEqual(sizes(plan), sizes(old));
        return;
      }
      assert.ok(outerWidth(plan) > outerWidth(old), `${outerWidth(plan)} is not wider than ${outerWidth(old)}`);
      assert.ok(outerWidth(plan) <= millimetres * 1000, `${outerWidth(plan)} does not go into ${millimetres} mm`);
      const [was, is] = [sizes(old), sizes(plan)];
      const changed = [...is].filter(([id, size]) => was.get(id) !== size);
      assert.ok(changed.length > 0 && changed.length < is.size, `${changed.length} of ${is.size} parts changed`);
      // The page shows it too: the sentences and the list are those of the new plan.
      await go(page, "Bench");
      await assertShows(page, plan, 1);
    }));
}

const [{ name: scenario }] = examples;

for (const bad of ["twenty", "-20", "1/0", "0", "9".repeat(400)]) {
  test(`a width of ${bad.slice(0, 12)} is told beside its field and costs nothing`, () =>
    visit({ scenario, stage: "Measure" }, async (page) => {
      const { plan } = await outcome(page);
      const box = widths(page).first();
      const good = await box.inputValue();
      await retype(page, box, bad);

      const said = await beside(box);
      assert.equal(said.invalid, "true");
      assert.ok(said.text.length > 20, `told: ${said.text}`);
      assert.ok(said.distance < 120, `told ${said.distance} pixels away`);
      assert.equal(await box.inputValue(), bad);
      assert.equal((await outcome(page)).plan, null);

      await go(page, "Bench");
      await page.getByText(/last sizes that worked/i).waitFor();
      await assertShows(page, plan, 1);
      await go(page, "Measure");
      assert.equal(await widths(page).first().inputValue(), bad);

      await retype(page, widths(page).first(), good);
      assert.deepEqual((await outcome(page)).plan, plan);
      assert.equal((await beside(widths(page).first())).invalid, undefined);
    }));
}

test("what is typed outlives the tab, good or bad", () =>
  visit({ scenario, stage: "Measure" }, async (page) => {
    await retype(page, widths(page).first(), "half past nine");
    await page.reload();
    await page.waitForFunction(() => window.jointwise?.outcome);
    assert.equal(await widths(page).first().inputValue(), "half past nine");
    assert.equal((await beside(widths(page).first())).invalid, "true");
  }));

test("every example can be chosen", () =>
  visit({ stage: "Measure" }, async (page) => {
    const select = page.getByLabel("Example", { exact: true });
    for (const { title } of [...examples.slice(1), examples[0]]) {
      await select.selectOption({ label: title });
      await page.waitForFunction((title) => window.jointwise.outcome?.plan?.title === title, title);
    }
  }));

/** What is said of a field, to the eye and to a screen reader, and how far below it stands. */
function beside(box) {
  return box.evaluate((input) => {
    const ids = (input.getAttribute("aria-describedby") ?? "").split(/\s+/).filter(Boolean);
    const told = ids.map((id) => document.getElementById(id)).filter((element) => element?.checkVisibility());
    const gap = (element) => element.getBoundingClientRect().top - input.getBoundingClientRect().bottom;
    return {
      invalid: input.getAttribute("aria-invalid") ?? undefined,
      text: told.map((element) => element.textContent).join(" ").trim(),
      distance: Math.min(...told.map(gap).map(Math.abs)),
    };
  });
}
