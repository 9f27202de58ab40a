// What stands round the steps at the bench: pedals, ticks, clocks, measuring, the second person,
// rehearsal, how the maker likes it, a second tab, a full storage, another language.

import assert from "node:assert/strict";
import { test } from "node:test";
import axe from "axe-core";
import { assertShows, benchSteps, more } from "./bench.mjs";
import { drawn, open, launch, outcome, rest, shop } from "./harness.mjs";
import { EXAMPLE } from "./site.mjs";

const { visit } = shop();
const scenario = EXAMPLE;
const bench = { scenario, stage: "Bench" };

const button = (page, name) => page.getByRole("button", { name, exact: true });
const words = (page) => page.getByRole("region", { name: "This step" });

/** Presses Next until a step does what is asked for; gives the step. */
async function forwardTo(page, plan, wanted) {
  const steps = benchSteps(plan);
  const found = steps.find(wanted);
  assert.ok(found, "the scenario has no such step");
  while ((await page.evaluate(() => window.jointwise.step)) !== found.n) await page.keyboard.press("PageDown");
  return found;
}

test("a pedal turns the steps whatever was tapped before, and leaves fields and sheets alone", () =>
  visit(bench, async (page) => {
    const { plan } = await outcome(page);
    await button(page, "Done").tap();
    for (const [key, k] of [["Space", 2], ["ArrowDown", 3], ["PageDown", 4], ["Shift+Space", 3], ["ArrowUp", 2]]) {
      await page.keyboard.press(key);
      await assertShows(page, plan, k);
    }
    await button(page, "More").click();
    await page.getByRole("dialog").waitFor();
    await page.keyboard.press("PageDown");
    await page.keyboard.press("Escape");
    await assertShows(page, plan, 2);
    // By the keyboard alone, the space bar presses what is focused.
    await button(page, "Done").focus();
    await page.keyboard.press("Space");
    assert.equal(await button(page, "Done").getAttribute("aria-pressed"), "true");
    await assertShows(page, plan, 2);
    await button(page, "More").click();
    await page.getByLabel("Keys and pedals turn the steps").uncheck();
    await page.keyboard.press("Escape");
    await page.evaluate(() => document.activeElement?.blur());
    await page.keyboard.press("PageDown");
    await assertShows(page, plan, 2);
  }));

test("ticks and choices outlast a reload, and another tab sees them", async () => {
  const running = await launch();
  try {
    const { page, context, problems } = await open(running, bench);
    await button(page, "Done").tap();
    await page.keyboard.press("PageDown");
    await more(page, /I already did this/);
    await button(page, "Tick everything up to here").click();
    assert.match(await page.locator(".count").textContent(), /^step 2 of .* 2 done$/);
    await button(page, "More").click();
    await page.getByLabel("Large type").check();
    await page.getByLabel("Buttons for the left hand").check();
    await page.getByLabel("Light", { exact: true }).selectOption("dark");
    await page.keyboard.press("Escape");
    const second = await context.newPage();
    await second.goto(page.url());
    await second.waitForFunction(() => window.jointwise?.outcome);
    assert.match(await second.locator(".count").textContent(), /2 done$/);
    const looks = (of) => of.evaluate(() => [{ ...document.documentElement.dataset }, getComputedStyle(document.body.parentElement).backgroundColor]);
    assert.deepEqual(await looks(second), [{ theme: "dark", size: "large", hand: "left" }, "rgb(20, 24, 28)"]);
    // The words are on the hand's side.
    const side = (of) => of.locator(".words").evaluate((element) => element.getBoundingClientRect().left);
    assert.equal(await side(second), 0);
    await button(second, "Done").click();
    await page.waitForFunction(() => / 1 done$/.test(document.querySelector(".count").textContent));
    // Sizes changed in one tab are the other's too, and its step stays.
    await second.evaluate(async () => {
      const { app } = await import(new URL("./planning.js", document.baseURI).href);
      app.edit(["title"], "changed in the other tab");
    });
    await page.waitForFunction(() => window.jointwise.outcome.plan?.title === "changed in the other tab");
    await page.getByText("This piece was changed in another tab").waitFor();
    assert.match(await page.locator(".count").textContent(), /^step 2 of/);
    assert.deepEqual(problems, []);
  } finally {
    await running.close();
  }
});

test("a glue clock runs through its phases, outlasts a reload and says when it is late", () =>
  visit({ ...bench, frozen: true }, async (page) => {
    const { plan } = await outcome(page);
    await page.clock.runFor(1000);
    const glued = new Set(plan.joints.filter((joint) => joint.glue).map((joint) => joint.id));
    await forwardTo(page, plan, (step) => step.action === "place" && step.joints.some((id) => glued.has(id)));
    await page.getByRole("button", { name: /^Glue is on/ }).click();
    const clock = page.locator(".clocks li");
    const { open: wait, closed, clamp } = plan.workshop.glue;
    assert.match(await clock.textContent(), /Open time/);
    await page.clock.runFor(61_000);
    // The page's time runs on while the test waits, so a clock may be some seconds further.
    const shows = async (wanted, late = false) => {
      const text = await page.getByRole("timer").textContent();
      assert.equal(text.startsWith("late by "), late, text);
      const [minutes, seconds] = text.replace("late by ", "").split(":").map(Number);
      const off = (minutes * 60 + seconds - wanted) * (late ? 1 : -1);
      assert.ok(off >= -1 && off < 50, `${text}, about ${wanted} seconds wanted`);
    };
    await shows(wait * 60 - 61);
    await page.reload();
    await page.clock.runFor(2000);
    await page.waitForFunction(() => window.jointwise?.outcome);
    await shows(wait * 60 - 63);
    await page.clock.runFor(wait * 60_000);
    await shows(63, true);
    assert.match(await page.locator("#spoken").textContent(), /^Open time is over/);
    await button(page, "Together").click();
    await shows(closed * 60);
    await button(page, "Pressed").click();
    await page.clock.runFor(clamp * 60_000 + 2000);
    assert.equal(await page.getByRole("timer").textContent(), "ready");
    await button(page, "Released").click();
    assert.equal(await clock.count(), 0);
  }));

test("what was measured gives what to do, and what cannot be read is marked", () =>
  visit(bench, async (page) => {
    const { plan } = await outcome(page);
    const step = await forwardTo(page, plan, (one) => one.checks.some((check) => check.kind === "diagonals"));
    const check = step.checks.find((one) => one.kind === "diagonals");
    await more(page, /Something is off/);
    await page.getByLabel("What you measured").selectOption({ label: `Step ${step.n}: diagonals` });
    const fields = page.locator(".off-fields input");
    const mm = (um) => `${um / 1000} mm`;
    // Leaning by 3 mm along the long side, by Pythagoras.
    const [[p, q]] = check.between;
    const sides = [0, 1, 2].map((axis) => Math.abs(p[axis] - q[axis])).filter((side) => side > 0).sort((a, b) => b - a);
    const leaning = (by) => mm(Math.round(Math.hypot(sides[0] + by, sides[1]) / 100) * 100);
    await fields.nth(0).fill(leaning(3000));
    await fields.nth(1).fill(leaning(-3000));
    await button(page, "What do I do?").click();
    const verdict = page.locator(".verdict");
    await verdict.waitFor();
    assert.equal(await verdict.getAttribute("data-verdict"), "mend");
    assert.match(await verdict.textContent(), /Squeeze along it.*shift against each other by/s);
    await fields.nth(1).fill("about as much");
    await button(page, "What do I do?").click();
    await page.locator('.verdict[data-verdict="unread"]').waitFor();
    assert.equal(await fields.nth(1).getAttribute("aria-invalid"), "true");
    assert.equal(await fields.nth(0).getAttribute("aria-invalid"), null);
  }));

test("two people's work is shown, and the second is called a step before", () =>
  visit({ scenario: "tall-locker", stage: "Bench" }, async (page) => {
    const { plan } = await outcome(page);
    await more(page, /Show both people/);
    await page.getByRole("region", { name: "For two people" }).waitFor();
    const steps = benchSteps(plan);
    const i = steps.findIndex((step, k) => k > 0 && step.people > 1 && steps[k - 1].people < 2);
    assert.ok(i > 0, "nothing takes two people");
    await forwardTo(page, plan, (step) => step.n === steps[i - 1].n);
    assert.match(await words(page).textContent(), /Call your helper now/);
    await page.keyboard.press("PageDown");
    const said = await page.getByRole("region", { name: "For two people" }).textContent();
    assert.match(said, /You.*Helper.*Say/s);
    assert.doesNotMatch(await words(page).textContent(), /Call your helper now/);
  }));

test("a rehearsal asks before it shows, and counts", () =>
  visit(bench, async (page) => {
    const { plan } = await outcome(page);
    const steps = benchSteps(plan);
    await forwardTo(page, plan, (step) => step.n === steps[2].n);
    await more(page, /Rehearse/);
    assert.equal(await page.locator("[data-step-text]").count(), 0, "the step is not given away");
    assert.equal(await page.locator("figure canvas").getAttribute("aria-label"), "How it lies before this step");
    const faces = { "-x": "left side", "+x": "right side", "-y": "front", "+y": "back", "-z": "underside", "+z": "top" };
    await button(page, faces[steps[2].bench_face]).click();
    const [first] = steps[2].text.split(/(?<=\.) (?=[A-Z])/);
    const wrong = page.locator(".quiz").nth(1).getByRole("button");
    const texts = await wrong.allTextContents();
    assert.equal(texts.length, 3);
    await wrong.nth(texts.findIndex((text) => text !== first)).click();
    assert.match(await page.locator("#spoken").textContent(), /^1 of 2 right$/);
    await button(page, "Next question").click();
    await button(page, "End the rehearsal").click();
    await assertShows(page, plan, 4);
  }));

test("a full storage loses nothing of this tab, and is told", () =>
  visit(
    {
      ...bench,
      setup: () => {
        const original = Storage.prototype.setItem;
        Storage.prototype.setItem = function (key, value) {
          if (this === localStorage) throw new DOMException("full", "QuotaExceededError");
          return original.call(this, key, value);
        };
      },
    },
    async (page) => {
      const { plan } = await outcome(page);
      await page.keyboard.press("PageDown");
      await assertShows(page, plan, 2);
      await page.getByText("Nothing more fits in this browser's storage").waitFor();
      await page.reload();
      await page.waitForFunction(() => window.jointwise?.outcome);
      await assertShows(page, plan, 2);
    },
  ));

test("in German the page's own words are German and the plan's are marked as English", () =>
  visit(bench, async (page) => {
    const { plan } = await outcome(page);
    await button(page, "More").click();
    await Promise.all([page.waitForNavigation(), page.getByLabel("Language").selectOption("de")]);
    await page.waitForFunction(() => window.jointwise?.outcome);
    await button(page, "Weiter").click();
    assert.equal(await page.evaluate(() => document.documentElement.lang), "de");
    assert.equal(await page.locator("[data-step-text]").evaluate((element) => element.closest("[lang]").lang), "en");
    assert.match(await page.locator(".count").textContent(), new RegExp(`^Schritt 2 von ${benchSteps(plan).length}$`));
    assert.equal(await page.getByRole("link", { name: "Werkbank" }).getAttribute("aria-current"), "page");
  }));

for (const size of [{ width: 768, height: 1024 }, { width: 390, height: 844 }]) {
  test(`the sheets have no fault that axe knows, ${size.width}×${size.height}`, () =>
    visit({ ...bench, ...size, dark: size.width === 390 }, async (page) => {
      await page.evaluate(axe.source);
      const faults = [];
      const look = async (what) => {
        const { violations } = await page.evaluate(() => window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "wcag2aaa", "best-practice"] }));
        for (const { id, nodes } of violations) faults.push(`${what}: ${id}: ${nodes.map((node) => node.target.join(" ")).slice(0, 4)}`);
        const small = await page.evaluate(() =>
          [...document.querySelectorAll("dialog[open] :is(button, select, input), .bench :is(button, select, input)")]
            .filter((element) => element.checkVisibility({ visibilityProperty: true }) && !element.closest(".drawer"))
            .map((element) => (element.closest("label") ?? element).getBoundingClientRect())
            .filter(({ width, height }) => width > 0 && Math.min(width, height) < 47.5).length,
        );
        if (small > 0) faults.push(`${what}: ${small} targets are small`);
        const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        if (over > 0) faults.push(`${what}: ${over} pixels too wide`);
      };
      await rest(page);
      await look("bench");
      await button(page, "More").click();
      await look("more");
      for (const entry of [/I already did this/, /Something is off/, /Send this build/]) {
        await page.getByRole("button", { name: entry }).click();
        await page.waitForTimeout(300);
        await look(String(entry));
        await page.keyboard.press("Escape");
        await button(page, "More").click();
      }
      await page.getByRole("button", { name: /Rehearse/ }).click();
      await look("rehearsal");
      assert.deepEqual(faults, []);
    }));
}

test("other ways to look change the picture, and a tap tells the part and measures", () =>
  visit({ ...bench, pictures: true, reduced: true }, async (page) => {
    const { plan } = await outcome(page);
    const steps = benchSteps(plan);
    const found = steps.findIndex((step, k) => k > 8 && step.action === "place" && step.body === "main");
    await forwardTo(page, plan, (step) => step.n === steps[found].n);
    await rest(page);
    const clip = await page.locator("figure canvas").boundingBox();
    const style = "figure > :not(canvas), .stand > :not(figure) { visibility: hidden }";
    const picture = async () => {
      await drawn(page);
      return page.screenshot({ clip, style });
    };
    const usual = await picture();
    await button(page, "Ways to look").click();
    for (const way of ["Pulled apart", "See the screws inside", "Cut open", "What comes next", "Finished piece"]) {
      await button(page, way).click();
      assert.ok(!(await picture()).equals(usual), way);
      assert.equal(await button(page, way).getAttribute("aria-pressed"), "true");
      await button(page, way).click();
      assert.ok((await picture()).equals(usual), `${way}, and back`);
    }
    // By buttons alone the cut goes another way, and elsewhere; a label says where.
    await button(page, "Cut open").click();
    const where = page.locator(".labels [data-kind=section]");
    const cuts = [[await picture(), await where.textContent()]];
    for (const press of ["Move the cut to the right, back or above", "Across the width", "Move the cut to the left, front or below", "Across the depth"]) {
      await button(page, press).click();
      cuts.push([await picture(), await where.textContent()]);
    }
    for (const [i, [cut, said]] of cuts.entries()) {
      assert.match(said, /^cut .* from (the left|the front|below)$/);
      for (const [other, saidOther] of cuts.slice(0, i)) assert.ok(!cut.equals(other) && said !== saidOther, said);
    }
    await button(page, "Cut open").click();
    assert.ok((await picture()).equals(usual), "closed again");
    assert.equal(await where.count(), 0);
    // Where a part is on the screen, the view says.
    const id = steps[found].parts[0];
    const middle = async () => {
      const boxes = await page.evaluate(async (id) => {
        const { app } = await import(new URL("./planning.js", document.baseURI).href);
        return [...app.picture.view.part_pixels_box(id)];
      }, id);
      return { x: (boxes[0] + boxes[2]) / 2, y: (boxes[1] + boxes[3]) / 2 };
    };
    await button(page, "Ways to look").click();
    await page.locator("figure canvas").tap({ position: await middle() });
    const card = page.locator(".card");
    const told = await card.textContent();
    const part = plan.parts.find((one) => told.includes(one.name));
    assert.ok(part, told);
    assert.match(told, /(lb|kg).*Steps/s);
    await card.getByRole("button", { name: /^Go to step/ }).first().click();
    await button(page, "Ways to look").click();
    await button(page, "Measure between two faces").click();
    await button(page, "Ways to look").click();
    const at = await middle();
    await page.locator("figure canvas").tap({ position: at });
    assert.match(await card.textContent(), /Now tap the other face/);
    await page.locator("figure canvas").tap({ position: at });
    assert.match(await card.textContent(), /^0 in across the /);
  }));

test("a page on which nothing happens draws nothing", () =>
  visit(bench, async (page) => {
    await page.keyboard.press("PageDown");
    await rest(page);
    const frames = await page.evaluate(async () => {
      const { app } = await import(new URL("./planning.js", document.baseURI).href);
      // What was asked for before may still come.
      await app.picture.quiet();
      const tick = app.picture.tick;
      let frames = 0;
      app.picture.tick = (now) => {
        frames += 1;
        tick.call(app.picture, now);
      };
      await new Promise((done) => setTimeout(done, 1000));
      const idle = frames;
      app.picture.refresh();
      await app.picture.quiet();
      return [idle, frames];
    });
    assert.deepEqual(frames, [0, 1]);
  }));

test("when the graphics are taken away in the middle the drawing stands in, and they come back", () =>
  visit(bench, async (page) => {
    const { plan } = await outcome(page);
    await page.keyboard.press("PageDown");
    await rest(page);
    await page.evaluate(() => {
      const gl = document.querySelector("figure canvas").getContext("webgl2");
      window.lost = gl.getExtension("WEBGL_lose_context");
      window.lost.loseContext();
    });
    await page.locator("figure img.still").waitFor();
    await assertShows(page, plan, 2);
    await page.keyboard.press("PageDown");
    await assertShows(page, plan, 3);
    await page.evaluate(() => window.lost.restoreContext());
    await page.locator("figure canvas").waitFor();
    await assertShows(page, plan, 3);
  }));

test("a part that is easily taken for another is pointed out, and alike ones are not", () =>
  visit(bench, async (page) => {
    const { plan } = await outcome(page);
    const twins = await page.evaluate(async () => {
      const { lookalikes } = await import(new URL("./parts.js", document.baseURI).href);
      const { plan } = window.jointwise.outcome;
      return plan.parts.map((part) => [part.id, lookalikes(plan, part).map((other) => other.id)]);
    });
    for (const [id, others] of twins) for (const other of others) assert.ok(twins.find(([one]) => one === other)[1].includes(id), `${id} and ${other}`);
    const [id] = twins.find(([one, others]) => others.length > 0 && benchSteps(plan).some((step) => step.parts.includes(one))) ?? [];
    assert.ok(id, "nothing looks alike here");
    await forwardTo(page, plan, (step) => step.parts.includes(id));
    await page.locator('[data-kind="twin"]').waitFor();
    assert.ok((await page.locator('[data-kind="twin"]').count()) <= twins.length);
    // The list has two levels: as many heads as times the body on the bench changes.
    const steps = benchSteps(plan);
    const changes = steps.filter((step, i) => steps[i - 1]?.body !== step.body).length;
    assert.equal(await page.locator(".drawer .body-name").count(), changes);
  }));
