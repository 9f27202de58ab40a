// What is typed is planned at once; what cannot be read is told beside its field, stays as typed,
// and costs neither the last good plan nor the way back to it.

import assert from "node:assert/strict";
import { test } from "node:test";
import { assertShows } from "./bench.mjs";
import { SIZES, go, outcome, replanned, shop } from "./harness.mjs";
import { EXAMPLE, scenarios } from "./site.mjs";

const { visit } = shop();
const examples = await scenarios();

/** Types into a box and waits for what the core makes of it. */
const retype = (page, box, text) => replanned(page, () => box.fill(text));

/** The measured widths of the opening. */
const widths = (page) => page.getByLabel(/^Width \d+$/);

/** From side to side, without what is applied to the front, in micrometres. */
function outerWidth(plan) {
  const boxes = plan.parts.filter(({ role }) => role === "side").flatMap((part) => part.boxes);
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

const scenario = EXAMPLE;

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

/** Opens a folded group of the form. */
const unfold = (page, name) => page.locator(".form > details.more > summary", { hasText: name }).click();
const GROUPS = ["Not quite a box", "In the way", "The way in", "A run of cabinets", "Cut already"];

test("what a tape finds beyond a box is drawn as it is typed, told of, and gone with its last entry", () =>
  visit({ scenario, stage: "Measure" }, async (page) => {
    const before = await outcome(page);
    await unfold(page, "Not quite a box");
    const [rising, falling] = [page.getByLabel("Diagonal, lower left to upper right"), page.getByLabel("Diagonal, upper left to lower right")];
    await retype(page, rising, "2500 mm");
    await retype(page, falling, "1010 mm");
    const front = page.locator(".drawing").first();
    for (const text of ["2500 mm", "1010 mm"]) assert.ok((await front.textContent()).includes(text), `${text} is not drawn`);
    await page.getByText(/cannot all be true/).first().waitFor();
    await retype(page, rising, "");
    await retype(page, falling, "");
    assert.deepEqual((await outcome(page)).findings, before.findings);
    await page.getByLabel("Out of plumb or level").selectOption("Left wall, from the floor up");
    const left = page.getByRole("group", { name: "Left wall, from the floor up" });
    await retype(page, left.getByLabel("Level's length"), "600 mm");
    await retype(page, left.getByLabel("Gap at its end"), "6 mm");
    assert.equal((await outcome(page)).plan, null, "which way it leans is not asked");
    await left.getByLabel("Which way").selectOption("in");
    await page.waitForFunction(() => window.jointwise.outcome.plan);
    assert.ok((await front.textContent()).includes("6 mm over 600 mm"));
    assert.equal(await front.locator("line.lean").count(), 1);
  }));

test("a wall is filled with bought units, and the way chosen becomes the opening", () =>
  visit({ scenario, stage: "Measure" }, async (page) => {
    await unfold(page, "A run of cabinets");
    await retype(page, page.getByLabel("Wall", { exact: true }), "3200 mm");
    const { run } = await outcome(page);
    assert.ok(run.length > 1);
    assert.equal(await page.locator(".way").count(), run.length);
    // By the finger, as everything here: it must lie where a finger comes to.
    await replanned(page, () => page.getByRole("button", { name: /^Use way 2/ }).tap());
    assert.equal(await widths(page).count(), 1);
    const row = (await outcome(page)).measured.find(({ id }) => id === "fits-width");
    // Sizes are typed to a 64th of an inch or a tenth of a millimetre.
    assert.ok(Math.abs(row.value - run[1].custom) <= 200, `${row.value} is not ${run[1].custom}`);
  }));

test("another arrangement of the things is one change, and the box keeps the focus", () =>
  visit({ scenario, stage: "Measure" }, async (page) => {
    const stand = () => page.getByLabel("They stand").first();
    const was = await stand().inputValue();
    await stand().focus();
    await replanned(page, () => stand().selectOption("grid"));
    assert.equal(await stand().evaluate((box) => box === document.activeElement), true);
    await page.getByLabel("Across").waitFor();
    await go(page, "Size");
    await replanned(page, () => page.getByRole("button", { name: "Undo", exact: true }).click());
    assert.ok(await page.getByRole("button", { name: "Undo", exact: true }).isDisabled());
    await go(page, "Measure");
    assert.equal(await stand().inputValue(), was);
  }));

test("the page speaks of no field by its name in the file", () =>
  visit({ scenario, stage: "Measure" }, async (page) => {
    await unfold(page, "A run of cabinets");
    await retype(page, page.getByLabel("Wall", { exact: true }), "40 mm");
    const said = page.locator(".form .message", { hasText: "This is \"40 mm\"" });
    await said.waitFor();
    assert.doesNotMatch(await said.innerText(), /[`_]|\w\.\w/);
  }));

test("a part that came out different is judged, and the rest follows it", () =>
  visit({ scenario, stage: "Measure" }, async (page) => {
    const { plan } = await outcome(page);
    const sideOf = (all, id) => all.parts.find((part) => part.id === id).length;
    await unfold(page, "Cut already");
    await replanned(page, () => page.getByLabel("Cut already").selectOption("left-side"));
    assert.deepEqual((await outcome(page)).made.map(({ verdict }) => verdict), ["fine"]);
    const short = (sideOf(plan, "left-side") - 800) / 1000;
    const group = page.getByRole("group", { name: "left side" });
    await retype(page, group.getByLabel("Came out long"), `${short} mm`);
    const after = await outcome(page);
    assert.deepEqual(after.made.map(({ verdict }) => verdict), ["fine"]);
    assert.equal(sideOf(after.plan, "right-side"), sideOf(plan, "right-side") - 800);
    await retype(page, group.getByLabel("Came out long"), `${short - 40} mm`);
    await group.getByText(/Cut again/).waitFor();
    await group.getByRole("button", { name: /not cut yet/ }).click();
    await page.waitForFunction(() => !window.jointwise.outcome.made);
    assert.deepEqual((await outcome(page)).plan, plan);
  }));

for (const size of SIZES) {
  test(`everything on Measure can be met in gloves at ${size.width} by ${size.height}`, () =>
    visit({ ...size, scenario, stage: "Measure" }, async (page) => {
      for (const name of GROUPS) await unfold(page, name);
      await page.getByRole("button", { name: "Add an obstacle" }).click();
      await page.getByRole("button", { name: "Add a passage" }).click();
      await page.waitForFunction(() => document.querySelector(".form [aria-invalid]"));
      const small = await page.locator(".form").evaluate((form) =>
        [...form.querySelectorAll("input[type=text], select, button, summary, label.button, label.tick")]
          .filter((control) => control.checkVisibility())
          .map((control) => [control.textContent || control.id, control.getBoundingClientRect()])
          .filter(([, box]) => box.height < 44 || box.width < 44 || box.left < 0 || box.right > innerWidth)
          .map(([name, box]) => `${name} ${Math.round(box.width)} × ${Math.round(box.height)} at ${Math.round(box.left)}`),
      );
      assert.deepEqual(small, []);
      assert.equal(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), true, "the page scrolls sideways");
    }));
}

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
