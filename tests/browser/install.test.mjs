// Install, walked through in every piece that is built for a gap: each step has its words and its
// picture, and what was decided about the room comes back as other steps.

import assert from "node:assert/strict";
import { test } from "node:test";
import { still } from "./bench.mjs";
import { SIZES, go, outcome, rest, shop } from "./harness.mjs";
import { EXAMPLE, scenarios } from "./site.mjs";

const { visit } = shop();

const next = (page) => page.getByRole("button", { name: "Next", exact: true }).click();
const room = async (page) => (await outcome(page)).plan.install;

test("every step in the room of every piece is read, seen and kept as done", async () => {
  for (const { name } of await scenarios()) {
    await visit({ scenario: name, stage: "Install", reduced: true }, async (page) => {
      const plan = await room(page);
      if (!plan) return page.getByText("part by part").waitFor();
      for (const [i, step] of plan.steps.entries()) {
        if (i > 0) await page.keyboard.press("PageDown");
        await page.getByText(`step ${i + 1} of ${plan.steps.length}`, { exact: true }).waitFor();
        const said = (await page.locator("[data-step-text]").textContent()).replaceAll(/\s+/g, " ");
        const first = step.text.split(" ").slice(0, 4).join(" ");
        assert.ok(said.startsWith(first), `${name} ${i + 1}: ${said}`);
        assert.equal(await page.locator("canvas").getAttribute("aria-label"), step.text, `${name} ${i + 1}`);
        const words = await page.locator(".words").textContent();
        for (const finding of plan.findings.filter((one) => one.step === step.n)) assert.ok(words.includes(finding.message), `${name} ${i + 1}: ${finding.message}`);
      }
      await page.getByRole("button", { name: "Done", exact: true }).click();
      await page.getByText("1 done").waitFor();
    });
  }
});

test("nothing runs out of its place, and the step is kept through a reload", async () => {
  for (const size of SIZES) {
    await visit({ ...size, scenario: EXAMPLE, stage: "Install" }, async (page) => {
      await next(page);
      await page.locator(".count", { hasText: "step 2 of" }).waitFor();
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(wide <= 0, `${size.width}: ${wide} px too wide`);
      await page.reload();
      await page.locator(".count", { hasText: "step 2 of" }).waitFor();
    });
  }
});

test("a counter that does not come takes its steps away, and the bench shows the piece again", async () => {
  await visit({ scenario: EXAMPLE, stage: "Install" }, async (page) => {
    const many = (await room(page)).steps.length;
    await page.getByRole("button", { name: "Room", exact: true }).click();
    await page.getByLabel("Counter that comes on top").fill("");
    await page.waitForFunction((many) => window.jointwise.outcome.plan?.install?.steps.length < many, many);
    await page.keyboard.press("Escape");
    await go(page, "Bench");
    await rest(page);
    const { plan } = await outcome(page);
    assert.equal(await page.locator("canvas").getAttribute("aria-label"), plan.steps[0].text);
  });
});

test("without WebGL every step in the room has its drawing", async () => {
  const setup = () => {
    const original = HTMLCanvasElement.prototype.getContext;
    HTMLCanvasElement.prototype.getContext = function (kind, ...rest) {
      return /webgl/.test(kind) ? null : original.call(this, kind, ...rest);
    };
  };
  await visit({ scenario: EXAMPLE, stage: "Install", setup }, async (page) => {
    const drawings = new Set();
    const { steps } = await room(page);
    for (const [i] of steps.entries()) {
      if (i > 0) await next(page);
      const drawing = await still(page, steps[i].n);
      assert.equal(await drawing.getAttribute("alt"), steps[i].text);
      drawings.add(await drawing.getAttribute("src"));
    }
    assert.ok(drawings.size > steps.length / 2, `${drawings.size} drawings for ${steps.length} steps`);
  });
});
