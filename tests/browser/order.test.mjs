// What the maker decides about the order of work, under All steps: the plan follows it from its
// first step; what cannot be done is said right there; and axe-core finds no fault with it.

import assert from "node:assert/strict";
import { test } from "node:test";
import axe from "axe-core";
import { benchSteps } from "./bench.mjs";
import { SIZES, outcome, replanned, rest, shop } from "./harness.mjs";

const { visit } = shop();
const scenario = "root-crate";
const LEAST = 48;

/** Opens the choices. */
async function choices(page) {
  await page.getByRole("button", { name: "All steps" }).click();
  await page.getByText("Order of work: your own choices").click();
  return page.locator(".order");
}

const typed = (page) =>
  page.evaluate(() => {
    const [, kept] = Object.entries(localStorage).find(([key]) => key.includes("#"));
    return JSON.parse(JSON.parse(kept).scenario);
  });

/** The parts of the piece that are in after a step, as the plan says, and whether all their joints are closed. */
function inAfter(plan, n) {
  const bodies = {};
  const closed = new Set();
  for (const step of plan.steps.filter((one) => one.n <= n)) {
    bodies[step.body] = [...(bodies[step.body] ?? []), ...step.parts, ...(bodies[step.joins] ?? [])];
    for (const id of step.joints) closed.add(id);
  }
  const parts = bodies.main ?? [];
  return { parts, whole: plan.joints.every((joint) => closed.has(joint.id) || !joint.parts.every((id) => parts.includes(id))) };
}

test("together up to this step: the rest is planned from there, shown from its first step, and back again", () =>
  visit({ scenario, stage: "Bench" }, async (page) => {
    const { plan } = await outcome(page);
    const steps = benchSteps(plan);
    const from = steps.find((step, i) => {
      const { parts, whole } = inAfter(plan, step.n);
      return i > 0 && whole && step.body === "main" && parts.length > 1 && parts.length < plan.parts.length;
    });
    assert.ok(from, "no step at which a part of the piece is together");
    const { parts } = inAfter(plan, from.n);
    await page.getByRole("button", { name: "All steps" }).click();
    await page.locator("ol[aria-label=Steps] > li button").nth(steps.indexOf(from)).click();
    const panel = await choices(page);
    const again = await replanned(page, () => panel.getByRole("button", { name: "Together up to this step" }).click());
    assert.deepEqual((await typed(page)).order.done.parts.toSorted(), parts.toSorted());
    assert.ok(again.plan, JSON.stringify(again.findings));
    assert.equal(await page.evaluate(() => window.jointwise.step), benchSteps(again.plan)[0].n);
    // What joins later may be made ready before.
    const taken = again.plan.steps.find((step) => step.body === "main");
    assert.deepEqual(taken.parts.toSorted(), parts.toSorted());
    assert.match(taken.text, /^Already together/);
    const back = await replanned(page, () => panel.getByRole("button", { name: "Begin from nothing again" }).click());
    assert.deepEqual(back.plan, plan);
    assert.equal((await typed(page)).order, undefined, "an empty section stays behind");
  }));

test("a part to start with is started with", () =>
  visit({ scenario, stage: "Bench" }, async (page) => {
    const panel = await choices(page);
    const { plan } = await outcome(page);
    const select = panel.getByLabel("Start with");
    const first = plan.steps[0].parts[0];
    const tried = [];
    for (const { id } of plan.parts.filter((part) => part.group === "main" && part.kind === "panel" && part.id !== first)) {
      const { plan: other, findings } = await replanned(page, () => select.selectOption(id));
      const said = (await panel.locator(".said").innerText()).trim();
      if (other) {
        const begun = other.steps.find((step) => step.body === "main");
        assert.ok(begun.parts.includes(id) || begun.joins, `${id}: ${begun.text}`);
        assert.equal(await page.evaluate(() => window.jointwise.step), 1);
      } else {
        for (const { message, hint } of findings.filter(({ severity }) => severity === "stop")) assert.ok(said.includes(message) && said.includes(hint), said);
      }
      tried.push(other !== null);
      if (tried.includes(true)) break;
    }
    assert.ok(tried.includes(true), "no other part can be started with");
    const back = await replanned(page, () => select.selectOption(""));
    assert.deepEqual(back.plan, plan);
  }));

test("when no order comes of the choices, that is said there, and the last good plan stays", () =>
  visit({ scenario: "seedling-box", stage: "Bench" }, async (page) => {
    const panel = await choices(page);
    const { plan } = await outcome(page);
    // On its own end face alone, no screw from below can be driven.
    for (const face of ["Back", "Front", "Left side", "Right side", "Top, upside down"]) {
      await replanned(page, () => panel.getByLabel(face, { exact: true }).uncheck());
    }
    const { plan: none, findings } = await outcome(page);
    assert.equal(none, null, "there is an order after all");
    assert.deepEqual((await typed(page)).order.lay_on, ["bottom"]);
    const said = await panel.locator(".said").innerText();
    const stops = findings.filter(({ severity }) => severity === "stop");
    assert.ok(stops.length > 0);
    // Fields are said there as the page calls them.
    const asSaid = (text) => text.replaceAll("`order.lay_on`", "the choice of faces");
    for (const { message, hint } of stops) assert.ok([message, hint].every((text) => said.includes(asSaid(text))), `${said}\n${message} ${hint}`);
    assert.equal(await page.locator("ol[aria-label=Steps] > li").count(), benchSteps(plan).length);
    const again = await replanned(page, () => panel.getByLabel("Top, upside down", { exact: true }).check());
    assert.ok(again.plan, JSON.stringify(again.findings));
    assert.equal((await panel.locator(".said").innerText()).trim(), "");
  }));

for (const size of SIZES) {
  for (const dark of [false, true]) {
    test(`the choices at ${size.width}×${size.height}, ${dark ? "dark" : "light"}: no fault, nothing too small or too wide`, () =>
      visit({ ...size, dark, scenario, stage: "Bench" }, async (page) => {
        await rest(page);
        const panel = await choices(page);
        await page.evaluate(axe.source);
        const { violations, passes } = await page.evaluate(
          (tags) => window.axe.run(document, { runOnly: tags, resultTypes: ["violations", "passes"] }),
          ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"],
        );
        assert.ok(passes.length > 10);
        assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(" "))}`), []);
        const controls = await panel.evaluate((element) =>
          [...element.querySelectorAll("button, select, summary, input")]
            .filter((control) => control.checkVisibility())
            .map((control) => {
              const { width, height } = (control.closest("label") ?? control).getBoundingClientRect();
              return { name: control.textContent || control.parentElement.textContent, width, height };
            }),
        );
        assert.ok(controls.length >= 10, `${controls.length} controls`);
        assert.deepEqual(controls.filter(({ width, height }) => Math.min(width, height) < LEAST - 0.5), []);
        assert.equal(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), 0);
        assert.equal(await panel.evaluate((pages) => pages.scrollWidth - pages.clientWidth), 0);
      }));
  }
}

test("the choices work by key alone", () =>
  visit({ scenario, stage: "Bench" }, async (page) => {
    await page.getByRole("button", { name: "All steps" }).focus();
    await page.keyboard.press("Enter");
    await page.locator(".order > summary").focus();
    await page.keyboard.press("Space");
    const alone = page.locator(".order").getByLabel("Every step by one alone");
    await alone.focus();
    const step = await page.evaluate(() => window.jointwise.step);
    await replanned(page, () => page.keyboard.press("Space"));
    assert.equal(await alone.isChecked(), true);
    assert.equal((await typed(page)).order.alone, true);
    assert.equal(await page.evaluate(() => window.jointwise.step), step, "a key went on to the next step");
  }));
