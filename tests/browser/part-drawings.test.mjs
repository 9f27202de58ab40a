// Size: each part opens its drawing, large enough to read on a tablet and on a phone, with its cuts in words; and it
// goes on paper.

import assert from "node:assert/strict";
import { test } from "node:test";
import axe from "axe-core";
import { SIZES, outcome, shop } from "./harness.mjs";

const { visit } = shop();

/** Least height of letters, in CSS pixels, that is read at arm's length without zooming. */
const READABLE = 12;
/** Height of the figures in the drawing's own units. */
const FIGURES = 26;

const list = (page) => page.getByRole("table", { name: "Parts and their drawings" });
const sheet = (page) => page.getByRole("dialog");

/** Opens the drawing of a part by its row's name. */
async function openPart(page, name) {
  await list(page).getByRole("button", { name, exact: true }).click();
  await sheet(page).getByRole("heading", { name, exact: true }).waitFor();
}

/** Remembers what pictures are made of, and prints nothing. */
const watched = () => {
  const make = URL.createObjectURL.bind(URL);
  window.blobs = new Map();
  URL.createObjectURL = (blob) => {
    const url = make(blob);
    window.blobs.set(url, blob);
    return url;
  };
  window.print = () => {};
};

/** What can be told of the picture that is open. */
const picture = (page) =>
  sheet(page)
    .locator("img")
    .evaluate(async (image) => {
      await image.decode();
      const svg = await window.blobs.get(image.src).text();
      const [, wide, high] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg).map(Number);
      const { width, height } = image.getBoundingClientRect();
      return { scale: Math.min(width / wide, height / high), figures: [...svg.matchAll(/class="figure[^>]*>([^<]*)</g)].map((hit) => hit[1]) };
    });

for (const size of SIZES) {
  test(`a drawing is read at ${size.width}×${size.height}`, () =>
    visit({ ...size, scenario: "mudroom-bins", stage: "Size", setup: watched }, async (page) => {
      await openPart(page, "left box side");
      const { scale, figures } = await picture(page);
      assert.ok(scale * FIGURES >= READABLE, `figures ${(scale * FIGURES).toFixed(1)} pixels high`);
      assert.ok(figures.includes("21 in") && figures.includes("1/2 in"), figures.join(", "));
      const words = await sheet(page).getByRole("list").innerText();
      assert.match(words, /Groove .* from the lower edge/);
      assert.match(words, /Mirror image of the right box side/);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert.equal(over, 0, "the page scrolls sideways");
      await page.evaluate(axe.source);
      const { violations } = await page.evaluate(() => window.axe.run(document.querySelector("dialog"), { resultTypes: ["violations"] }));
      assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(" "))}`), []);
    }));
}

test("every cut part is gone through with its own drawing, and mirror pairs are marked in the list", () =>
  visit({ scenario: "mudroom-bins", stage: "Size" }, async (page) => {
    const { plan } = await outcome(page);
    const panels = plan.parts.filter((part) => part.making);
    await openPart(page, panels[0].name);
    for (const [i, part] of panels.entries()) {
      await sheet(page).getByRole("heading", { name: part.name, exact: true }).waitFor();
      assert.ok((await sheet(page).locator(".part-name").innerText()).startsWith(part.making.label), part.name);
      const next = sheet(page).getByRole("button", { name: "Next part" });
      assert.equal(await next.isDisabled(), i + 1 === panels.length);
      if (i + 1 < panels.length) await next.click();
    }
    await page.keyboard.press("Escape");
    for (const part of panels.filter((one) => one.making.mirrors)) {
      const other = plan.parts.find((one) => one.id === part.making.mirrors);
      for (const [here, there] of [[part, other], [other, part]]) {
        assert.match(await list(page).locator(`[data-part="${here.id}"]`).innerText(), new RegExp(`mirror image of the ${there.name}`));
      }
    }
  }));

test("drawings follow what is changed, and go on paper one a page", () =>
  visit({ scenario: "mudroom-bins", stage: "Size", setup: watched }, async (page) => {
    const paper = () => page.locator("#paper .paper-part .part-name").allInnerTexts();
    await page.getByLabel("Box side height").fill("9");
    await page.waitForFunction(() => window.jointwise.outcome?.plan?.parts.some((part) => part.id === "box-left" && part.width === 228_600));
    await openPart(page, "left box side");
    assert.ok((await picture(page)).figures.includes("9 in"));
    await sheet(page).getByRole("button", { name: "Print this drawing" }).click();
    await page.waitForFunction(() => document.getElementById("paper"));
    await page.emulateMedia({ media: "print" });
    assert.equal((await paper()).length, 1);
    await page.evaluate(() => dispatchEvent(new Event("afterprint")));
    await page.emulateMedia({ media: "screen" });
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Print all drawings" }).click();
    await page.waitForFunction(() => document.getElementById("paper"));
    await page.emulateMedia({ media: "print" });
    const { plan } = await outcome(page);
    assert.deepEqual((await paper()).map((name) => name.split(":")[0]), plan.parts.flatMap((part) => part.making?.label ?? []));
  }));
