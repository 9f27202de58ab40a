// No stage, light or dark, on a tablet or a phone, has a fault that axe-core knows; and on Bench
// a gloved finger finds every target.

import assert from "node:assert/strict";
import { test } from "node:test";
import axe from "axe-core";
import { SIZES, STAGES, go, rest, shop } from "./harness.mjs";
import { EXAMPLE } from "./site.mjs";

const TAGS = ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"];

/** The least side of a touch target on Bench, in CSS pixels. */
const LEAST = 48;

const { visit } = shop();
const scenario = EXAMPLE;

for (const dark of [false, true]) {
  for (const size of SIZES) {
    test(`every stage, ${dark ? "dark" : "light"}, ${size.width}×${size.height}`, () =>
      visit({ ...size, dark, scenario, stage: "Measure" }, async (page) => {
        await page.evaluate(axe.source);
        const faults = [];
        for (const stage of STAGES) {
          await go(page, stage);
          assert.equal(await page.evaluate(() => location.hash), `#${stage.toLowerCase()}`);
          if (stage === "Bench") await rest(page);
          const { violations, passes } = await page.evaluate(
            (tags) => window.axe.run(document, { runOnly: tags, resultTypes: ["violations", "passes"] }),
            TAGS,
          );
          assert.ok(passes.length > 10, `axe looked at next to nothing on ${stage}`);
          for (const { id, help, nodes } of violations) {
            faults.push(`${stage}: ${id}: ${help}: ${nodes.map((node) => node.target.join(" ")).slice(0, 5).join(", ")}`);
          }
        }
        assert.deepEqual(faults, []);
      }));
  }
}

for (const size of SIZES) {
  test(`Bench at ${size.width}×${size.height}: every target is ${LEAST} pixels or more`, () =>
    visit({ ...size, scenario, stage: "Bench" }, async (page) => {
      const buttons = await page.evaluate(() =>
        [...document.querySelectorAll("button, a[href], select, summary, input, [role=button]")]
          .filter((element) => element.checkVisibility({ visibilityProperty: true }))
          .map((element) => {
            // A label that holds its box is pressed as one with it.
            const { left, right, top, bottom, width, height } = (element.closest("label") ?? element).getBoundingClientRect();
            const outside = right <= 0 || bottom <= 0 || left >= innerWidth || top >= innerHeight;
            return { name: (element.ariaLabel ?? element.textContent).trim(), width, height, outside };
          })
          // What waits outside the window, such as a link shown on focus, is no target yet.
          .filter(({ outside }) => !outside),
      );
      assert.ok(buttons.length >= 3, "too few targets found");
      // Half a pixel is given for rounding.
      const small = buttons.filter(({ width, height }) => Math.min(width, height) < LEAST - 0.5);
      assert.deepEqual(small, []);
    }));

  test(`no stage at ${size.width}×${size.height} scrolls sideways`, () =>
    visit({ ...size, scenario, stage: "Measure" }, async (page) => {
      for (const stage of STAGES) {
        await go(page, stage);
        const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        assert.equal(over, 0, `${stage} is ${over} pixels too wide`);
      }
    }));
}

test("Bench on a tablet lying down does not scroll", () =>
  visit({ ...SIZES[0], scenario, stage: "Bench" }, async (page) => {
    const over = await page.evaluate(() => document.documentElement.scrollHeight - innerHeight);
    assert.ok(over <= 0, `${over} pixels too high`);
  }));
