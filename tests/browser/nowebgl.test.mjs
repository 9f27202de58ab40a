// A device that cannot draw in three dimensions gets a drawing for each step, and the same words.

import assert from "node:assert/strict";
import { test } from "node:test";
import { assertShows, benchSteps, still } from "./bench.mjs";
import { outcome, shop } from "./harness.mjs";
import { EXAMPLE } from "./site.mjs";

const { visit } = shop();
const scenario = EXAMPLE;

test("without WebGL every step has its drawing", () =>
  visit({ scenario, stage: "Bench", pictures: true, setup: refuseWebGl }, async (page) => {
    const { plan } = await outcome(page);
    const last = benchSteps(plan).length;
    const drawings = new Set();
    for (let k = 1; k <= last; k += 1) {
      if (k > 1) await page.getByRole("button", { name: "Next", exact: true }).click();
      await assertShows(page, plan, k);
      const drawing = await still(page, benchSteps(plan)[k - 1].n);
      const { width, height } = await drawing.boundingBox();
      assert.ok(width > 100 && height > 100, `step ${k}: a drawing of ${width} by ${height}`);
      drawings.add((await drawing.screenshot()).toString("base64"));
    }
    assert.ok(drawings.size > last / 2, `${drawings.size} different drawings for ${last} steps`);
  }));

/** Runs in the page, before its own scripts. */
function refuseWebGl() {
  const original = HTMLCanvasElement.prototype.getContext;
  HTMLCanvasElement.prototype.getContext = function (kind, ...rest) {
    return /webgl/.test(kind) ? null : original.call(this, kind, ...rest);
  };
}
