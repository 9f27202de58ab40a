// Clamps are drawn where they go on, stay in the picture until they come off, and are said.

import assert from "node:assert/strict";
import { test } from "node:test";
import { benchSteps } from "./bench.mjs";
import { outcome, rest, shop } from "./harness.mjs";
import { scenarios } from "./site.mjs";

const { visit } = shop();
const examples = await scenarios();

/** Of the places along the bars of a step's clamps, how many are as grey as a clamp: with the clamps and without. */
const greys = (page, plan, n) =>
  page.evaluate(
    async ([plan, n]) => {
      const engine = await import(new URL("./engine.js", location.href).href);
      const step = plan.steps.find((one) => one.n === n);
      const bars = [...(step.clamps ?? []), ...step.hold.flatMap((hold) => hold.clamp ?? [])].map((clamp) => clamp.bar);
      const places = bars.flatMap((bar) => {
        const sizes = [0, 1, 2].map((k) => bar[k + 3] - bar[k]);
        const along = sizes.indexOf(Math.max(...sizes));
        return Array.from({ length: 21 }, (_, i) => sizes.map((size, k) => bar[k] + (k === along ? ((i + 0.5) * size) / 21 : size / 2)));
      });
      const count = (json) => {
        const canvas = document.createElement("canvas");
        [canvas.width, canvas.height] = [900, 675];
        const gl = canvas.getContext("webgl2", { preserveDrawingBuffer: true, alpha: false });
        const view = engine.createView(gl, JSON.stringify(json));
        view.resize(900, 675, 1);
        view.theme(false, true);
        view.show(n, 1);
        view.arrive(1);
        view.draw();
        const pixel = new Uint8Array(4);
        const found = places.filter(([x, y, z]) => {
          const [left, top] = view.project(x, y, z);
          gl.readPixels(Math.round(left), 675 - Math.round(top), 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel);
          // Wood, bench and paper are warm; guides are far bluer.
          const [r, , b] = pixel;
          return b >= r && b - r < 24 && r > 90;
        }).length;
        view.free();
        return found;
      };
      const bare = structuredClone(plan);
      for (const one of bare.steps) {
        delete one.clamps;
        for (const hold of one.hold) delete hold.clamp;
      }
      return { all: places.length, withClamps: count(plan), without: count(bare) };
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
        const { all, withClamps, without } = await greys(page, plan, step.n);
        // A part may hide some of a bar, and a line run along it.
        const said = `${name}, step ${step.n}: of ${all} places on bars ${withClamps} are grey, ${without} without clamps`;
        assert.ok(withClamps >= all / 4 && withClamps >= without + all / 5, said);
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
