// Clamps are drawn where they go on, stay in the picture until they come off, and are said.

import assert from "node:assert/strict";
import { test } from "node:test";
import { benchSteps } from "./bench.mjs";
import { outcome, rest, shop } from "./harness.mjs";
import { scenarios } from "./site.mjs";

const { visit } = shop();
const examples = await scenarios();

/** How many pixels of a step's picture are as grey as a clamp, with the plan's clamps and without. */
const greys = (page, plan, n) =>
  page.evaluate(
    async ([plan, n]) => {
      const engine = await import(new URL("./engine.js", location.href).href);
      const count = (json) => {
        const canvas = document.createElement("canvas");
        [canvas.width, canvas.height] = [600, 450];
        const gl = canvas.getContext("webgl2", { preserveDrawingBuffer: true, alpha: false });
        const view = engine.createView(gl, JSON.stringify(json));
        view.resize(600, 450, 1);
        view.theme(false, true);
        view.show(n, 1);
        view.arrive(1);
        view.draw();
        const all = new Uint8Array(600 * 450 * 4);
        gl.readPixels(0, 0, 600, 450, gl.RGBA, gl.UNSIGNED_BYTE, all);
        view.free();
        let found = 0;
        // Wood, bench and paper are warm; guides are far bluer.
        for (let i = 0; i < all.length; i += 4) {
          const [r, , b] = [all[i], all[i + 1], all[i + 2]];
          if (b >= r && b - r < 24 && r > 90) found += 1;
        }
        return found;
      };
      const bare = structuredClone(plan);
      for (const step of bare.steps) {
        delete step.clamps;
        for (const hold of step.hold) delete hold.clamp;
      }
      return { withClamps: count(plan), without: count(bare) };
    },
    [plan, n],
  );

const svg = (page, text, n) =>
  page.evaluate(
    async ([text, n]) => {
      const planner = await import(new URL("./planner.js", location.href).href);
      return planner.exportFile(text, `step-svg:${n}`);
    },
    [text, n],
  );

test("clamps are drawn, in space and on paper, until they come off", async () => {
  let held = 0;
  let left = 0;
  for (const { name, text } of examples) {
    if (held > 0 && left > 0) break;
    await visit({ scenario: name, stage: "Bench" }, async (page) => {
      const { plan } = await outcome(page);
      if (!plan) return;
      const steps = benchSteps(plan);
      const go = async (step) => {
        await page.evaluate(() => document.querySelector(".all").click());
        await page.locator("ol[aria-label=Steps] > li button").nth(steps.indexOf(step)).click();
        await rest(page);
        return page.locator(".labels [data-kind=clamp]").count();
      };
      const one = steps.find((step) => step.hold.some((hold) => hold.clamp));
      const on = steps.find((step) => step.clamps?.length > 0);
      for (const step of [one, on].filter(Boolean)) {
        assert.ok((await go(step)) > 0, `${name}, step ${step.n}: no clamp is named in the picture`);
        const { withClamps, without } = await greys(page, plan, step.n);
        assert.ok(withClamps > without + 200, `${name}, step ${step.n}: ${withClamps} grey pixels, ${without} without clamps`);
        assert.match(await svg(page, text, step.n), /<g class="clamp">/);
        assert.ok((await page.locator(".words [data-kind=clamp], .words [data-kind=hold]").count()) > 0);
      }
      if (one) held += 1;
      if (!on) return;
      left += 1;
      const off = steps.find((step) => step.action === "unclamp" && step.body === on.body && step.n > on.n);
      const between = steps.filter((step) => step.n > on.n && step.n < off.n && step.body === on.body);
      for (const step of between) assert.match(await svg(page, text, step.n), /<g class="clamp">/);
      assert.match(await svg(page, text, off.n), /clamp-off/);
      const after = steps.find((step) => step.n > off.n && !step.clamps && !step.hold.some((hold) => hold.clamp));
      if (after) assert.doesNotMatch(await svg(page, text, after.n), /<g class="clamp/);
      const wait = steps.find((step) => step.action === "wait");
      await go(wait);
      assert.equal(await page.locator(".words [data-minutes]").getAttribute("data-minutes"), String(wait.minutes));
    });
  }
  assert.ok(held + left > 0, "no example uses a clamp");
});
