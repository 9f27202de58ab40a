// Clamps are drawn where they go on, stay in the picture until they come off, and are said.

import assert from "node:assert/strict";
import { test } from "node:test";
import { benchSteps } from "./bench.mjs";
import { go, outcome, rest, shop } from "./harness.mjs";
import { scenarios } from "./site.mjs";

const { visit } = shop();
const examples = await scenarios();

/** Of the places along the bars of some clamps, how many are as grey as a clamp: with the clamps and without. */
const greys = (page, plan, n, clamps) =>
  page.evaluate(
    async ([plan, n, clamps]) => {
      const { createView } = await import(new URL("./view.js", location.href).href);
      const bars = clamps.map((clamp) => clamp.bar);
      const places = bars.flatMap((bar) => {
        const sizes = [0, 1, 2].map((k) => bar[k + 3] - bar[k]);
        const along = sizes.indexOf(Math.max(...sizes));
        return Array.from({ length: 21 }, (_, i) => sizes.map((size, k) => bar[k] + (k === along ? ((i + 0.5) * size) / 21 : size / 2)));
      });
      const count = (json) => {
        const canvas = document.createElement("canvas");
        [canvas.width, canvas.height] = [900, 675];
        const gl = canvas.getContext("webgl2", { preserveDrawingBuffer: true, alpha: false });
        const view = createView(gl, JSON.stringify(json));
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
    [plan, n, clamps],
  );

const svg = (page, text, n) =>
  page.evaluate(
    async ([text, n]) => {
      const planner = await import(new URL("./planner.js", location.href).href);
      return planner.exportFile(text, `step-svg:${n}`);
    },
    [text, n],
  );

/** Goes to a step by the list. */
async function goTo(page, steps, step) {
  await page.evaluate((i) => document.querySelectorAll("ol[aria-label=Steps] > li button")[i].click(), steps.indexOf(step));
  await page.waitForFunction((n) => window.jointwise.step === n, step.n);
  await rest(page);
}

/** Two boards that glue alone joins: a clamp goes on, waits and comes off. */
const GLUED = {
  format: "jointwise-scenario/1",
  title: "Glued corner",
  unit: "mm",
  piece: {
    parts: [
      { id: "upright", material: "pine", at: [0, 0, 0], size: [20, 200, 160] },
      { id: "shelf", material: "pine", at: [20, 0, 0], size: [360, 200, 20] },
    ],
    joints: [{ parts: ["upright", "shelf"], glue: true }],
  },
  shop: {
    materials: [{ id: "pine", name: "20 mm pine", kind: "softwood", thickness: 20 }],
    clamps: [600],
    glue: { open_minutes: 8, closed_minutes: 15, clamp_minutes: 45 },
  },
};

test("a clamp on glue is drawn and said until it comes off, and the wait stands large", () =>
  visit({ scenario: examples[0].name, stage: "Measure" }, async (page) => {
    const text = JSON.stringify(GLUED);
    await page.evaluate(() => {
      window.before = window.jointwise.outcome;
    });
    await page.setInputFiles("#open-file", { name: "corner.json", mimeType: "application/json", buffer: Buffer.from(text) });
    await page.waitForFunction(() => window.jointwise.outcome !== window.before);
    await go(page, "Bench");
    const { plan, findings } = await outcome(page);
    assert.ok(plan, JSON.stringify(findings));
    const steps = benchSteps(plan);
    const [on, wait, off] = [steps.find((step) => step.clamps?.length > 0), ...["wait", "unclamp"].map((action) => steps.find((step) => step.action === action))];
    assert.ok(on && wait && off);
    const label = page.locator(".labels [data-kind=clamp]");
    const said = page.locator(".words [data-kind=clamp]");
    for (const [step, labels, words, drawn] of [
      [steps[0], 0, 0, /^(?!.*class="clamp)/s],
      [on, 1, 1, /<g class="clamp">/],
      [wait, 0, 0, /<g class="clamp">/],
      [off, 1, 1, /<g class="clamp clamp-off">/],
    ]) {
      await goTo(page, steps, step);
      assert.equal(await label.count(), labels, `step ${step.n}: names in the picture`);
      assert.equal(await said.count(), words, `step ${step.n}: words`);
      assert.match(await svg(page, text, step.n), drawn);
    }
    for (const step of [on, wait]) {
      const { all, withClamps, without } = await greys(page, plan, step.n, on.clamps);
      assert.ok(withClamps >= all / 2 && without <= all / 5, `step ${step.n}: of ${all} places on the bar ${withClamps} are grey, ${without} without`);
    }
    await goTo(page, steps, wait);
    assert.equal(await page.locator(".words [data-minutes]").innerText(), "45 min");
  }));

test("clamps that hold a part are drawn and named", async () => {
  const [all, withClamps, without] = [[], [], []];
  for (const name of ["root-crate", "seedling-box"]) {
    await visit({ scenario: name, stage: "Bench" }, async (page) => {
      const { plan } = await outcome(page);
      const steps = benchSteps(plan);
      for (const step of steps.filter((one) => one.hold.some((hold) => hold.clamp))) {
        await goTo(page, steps, step);
        assert.ok((await page.locator(".labels [data-kind=clamp]").count()) > 0, `${name}, step ${step.n}: no clamp is named in the picture`);
        assert.match(await page.locator(".words").innerText(), /Clamp: .*Opening/s);
        const found = await greys(page, plan, step.n, step.hold.flatMap((hold) => hold.clamp ?? []));
        all.push(found.all);
        withClamps.push(found.withClamps);
        without.push(found.without);
      }
    });
  }
  const sum = (list) => list.reduce((a, b) => a + b, 0);
  assert.ok(all.length > 0, "no clamp holds anything");
  // A part may stand before a bar, and a screw behind where one would be.
  assert.ok(sum(withClamps) >= sum(without) + sum(all) / 3, `${withClamps} of ${all}; ${without} without clamps`);
});
