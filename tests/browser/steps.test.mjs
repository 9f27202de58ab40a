// From the first step to the last and back, by finger and by key: every sentence and every screw
// as planned, the list in step, and the parts seen to move.

import assert from "node:assert/strict";
import { test } from "node:test";
import { assertShows, benchSteps, moves } from "./bench.mjs";
import { SIZES, outcome, rest, shop } from "./harness.mjs";
import { comparer } from "./pixels.mjs";
import { scenarios } from "./site.mjs";

const { visit, browser } = shop();

const press = (page, name) => page.getByRole("button", { name, exact: true }).tap();

/** The plan that the page holds; without one there is nothing to test. */
async function planOf(page) {
  const { plan, findings } = await outcome(page);
  assert.ok(plan, `no plan: ${JSON.stringify(findings)}`);
  assert.ok(benchSteps(plan).length > 1, "too few steps to walk through");
  return plan;
}

const examples = await scenarios();

// One piece is walked through in every way and at both sizes: drawn without a graphics processor, that
// takes minutes each. The others are walked through by key, where the plan and the page must agree.
const THOROUGH = "mudroom-bins";

for (const [n, { name }] of examples.entries()) {
  for (const size of name === THOROUGH ? SIZES : [SIZES[n % SIZES.length]]) {
    const at = `${name} at ${size.width}×${size.height}`;
    const bench = { ...size, scenario: name, stage: "Bench" };

    if (name === THOROUGH) test(`${at}: by finger`, () =>
      visit(bench, async (page) => {
        const plan = await planOf(page);
        const last = benchSteps(plan).length;
        await assertShows(page, plan, 1);
        for (let k = 2; k <= last; k += 1) {
          await press(page, "Next");
          await assertShows(page, plan, k);
        }
        for (let k = last - 1; k >= 1; k -= 1) {
          await press(page, "Back");
          await assertShows(page, plan, k);
        }
      }));

    test(`${at}: by key`, () =>
      visit(bench, async (page) => {
        const plan = await planOf(page);
        const last = benchSteps(plan).length;
        const [forward, backward] = [["ArrowRight", "Space", "PageDown"], ["ArrowLeft", "PageUp"]];
        await assertShows(page, plan, 1);
        await page.keyboard.press("ArrowLeft");
        await assertShows(page, plan, 1);
        for (let k = 2; k <= last; k += 1) {
          await page.keyboard.press(forward[k % forward.length]);
          await assertShows(page, plan, k);
        }
        await page.keyboard.press("ArrowRight");
        await assertShows(page, plan, last);
        for (let k = last - 1; k >= 1; k -= 1) {
          await page.keyboard.press(backward[k % backward.length]);
          await assertShows(page, plan, k);
        }
      }));

    if (name === THOROUGH) test(`${at}: what joins is seen to move, and then rests`, () =>
      visit({ ...bench, frozen: true, pictures: true }, async (page) => {
        const plan = await planOf(page);
        await page.clock.runFor(3000);
        await rest(page);
        // Time stands still from here: each picture is of a moment that the test chose.
        await page.clock.pauseAt(await page.evaluate(() => Date.now() + 1000));
        const { differing, colours, close } = await comparer(browser());
        // The browser's own mark of a tapped button fades in its own time, over the picture.
        await page.addStyleTag({ content: "* { -webkit-tap-highlight-color: transparent }" });
        const clip = await page.locator("figure canvas").boundingBox();
        // Without the names laid over it, which move along and would hide a part that does not.
        const picture = () => page.screenshot({ clip, caret: "initial", style: "figure > :not(canvas), .view-buttons { visibility: hidden }" });
        // Over the whole of a motion in a few frames: drawing every one takes minutes without a
        // graphics processor. What still moves then does not come to rest.
        const leap = async () => {
          for (let i = 0; i < 3; i += 1) await page.clock.fastForward(1000);
          await rest(page);
        };
        const lost = [];
        for (const [i, step] of benchSteps(plan).entries()) {
          const k = i + 1;
          if (k > 1) await press(page, "Next");
          await leap();
          // Played again, when the eye has come to its place: what differs then is what moves.
          await press(page, "Replay");
          await page.clock.runFor(40);
          const start = await picture();
          await leap();
          const end = await picture();
          const still = await picture();
          const moved = moves(step) ? await differing(start, end) : undefined;
          if ((await colours(end)) < 2) lost.push(`step ${k}: the picture is blank`);
          if (!still.equals(end)) lost.push(`step ${k}: the picture does not come to rest`);
          // A screw head alone covers some tens of pixels, a part far more.
          const least = step.parts.length > 0 || step.joins || step.action === "turn" ? 400 : 20;
          if (moved !== undefined && moved < least) lost.push(`step ${k} (${step.action}): ${moved} pixels moved, at least ${least} wanted`);
        }
        await close();
        assert.deepEqual(lost, []);
      }));
  }
}

test("a device that asks for less motion gets none", () =>
  visit({ scenario: examples[0].name, stage: "Bench", reduced: true }, async (page) => {
    const plan = await planOf(page);
    await press(page, "Next");
    await assertShows(page, plan, 2);
    assert.equal(await page.evaluate(() => window.jointwise.motion), "rest");
  }));
