// What goes wrong on a device in a shop: storage refused, caches thrown away, another version in another
// tab, a clock that jumps, a planner that breaks or has no memory, graphics that come and go, large type.
// Each time the maker is told, keeps what was done, and goes on.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { test } from "node:test";
import { assertShows, benchSteps } from "./bench.mjs";
import { STAGES, go, kept, launch, open, outcome, replanned, rest, shop, withShop } from "./harness.mjs";
import { EXAMPLE, SITE } from "./site.mjs";

const { visit } = shop();
const scenario = EXAMPLE;
const bench = { scenario, stage: "Bench" };
const button = (page, name) => page.getByRole("button", { name, exact: true });
const firstWidth = (page) => page.getByLabel(/^Width \d+$/).first();

test("a browser that keeps nothing says so, and the page works", () =>
  visit(
    {
      ...bench,
      setup: () => {
        for (const name of ["localStorage", "sessionStorage"]) {
          Object.defineProperty(window, name, {
            get() {
              throw new DOMException("refused", "SecurityError");
            },
          });
        }
      },
    },
    async (page) => {
      const { plan } = await outcome(page);
      await page.getByText("This browser keeps nothing for this page").waitFor();
      await page.keyboard.press("PageDown");
      await assertShows(page, plan, 2);
      await go(page, "Measure");
      assert.ok((await replanned(page, () => firstWidth(page).fill("600 mm"))).plan);
    },
  ));

test("caches that the browser threw away are filled again at the next visit", () =>
  withShop(async (running) => {
    const { page, problems } = await open(running, { ...bench, worker: true });
    const { plan } = await outcome(page);
    await kept(page);
    await page.keyboard.press("PageDown");
    await page.evaluate(async () => Promise.all((await caches.keys()).map((name) => caches.delete(name))));
    await page.reload();
    await page.waitForFunction(() => window.jointwise?.outcome);
    await assertShows(page, plan, 2);
    await kept(page);
    running.site.close();
    await page.reload();
    await page.waitForFunction(() => window.jointwise?.outcome);
    assert.deepEqual((await outcome(page)).plan, plan);
    await assertShows(page, plan, 2);
    assert.deepEqual(problems, []);
  }));

test("another tab takes a new version in the middle of a build: this one is told, goes on, and keeps its ticks", () =>
  withShop(async (running) => {
    const { page, context, problems } = await open(running, { ...bench, worker: true });
    const { plan } = await outcome(page);
    await kept(page);
    await button(page, "Done").tap();
    await page.keyboard.press("PageDown");
    const list = await readFile(join(SITE, "sw-files.js"), "utf8");
    running.site.instead.set("sw-files.js", list.replace(/"?version"?: ?"/, "$&n").replace(/("icon\.svg": ?")/, "$1n"));
    const other = await context.newPage();
    await other.goto(page.url());
    await other.waitForFunction(() => window.jointwise?.outcome);
    const offer = other.getByRole("button", { name: "Load it now" });
    await offer.waitFor();
    await Promise.all([other.waitForNavigation(), offer.click()]);
    await other.waitForFunction(() => window.jointwise?.outcome);
    await page.getByText("A new version is ready").waitFor();
    await assertShows(page, plan, 2);
    await page.keyboard.press("PageDown");
    await assertShows(page, plan, 3);
    // What was never asked for before comes from the new version.
    await button(page, "More").click();
    await page.getByRole("dialog").waitFor();
    await page.keyboard.press("Escape");
    await page.reload();
    await page.waitForFunction(() => window.jointwise?.outcome);
    await assertShows(page, plan, 3);
    assert.match(await page.locator(".count").textContent(), / 1 done$/);
    assert.deepEqual(problems, []);
  }));

/** Starts the clock of the first glue; gives its open time in seconds. */
async function glue(page) {
  const { plan } = await outcome(page);
  await page.clock.runFor(1000);
  const glued = new Set(plan.joints.filter((joint) => joint.glue).map((joint) => joint.id));
  const found = benchSteps(plan).find((step) => step.action === "place" && step.joints.some((id) => glued.has(id)));
  while ((await page.evaluate(() => window.jointwise.step)) !== found.n) await page.keyboard.press("PageDown");
  await page.getByRole("button", { name: /^Glue is on/ }).click();
  await page.clock.runFor(30_000);
  return plan.workshop.glue.open * 60;
}

/** Seconds left on the only clock; negative when it is late. */
async function left(page) {
  const text = await page.getByRole("timer").textContent();
  const parts = text.replace("late by ", "").split(":").map(Number);
  return parts.reduce((sum, part) => sum * 60 + part, 0) * (text.startsWith("late") ? -1 : 1);
}

/** The page's time runs on while the test waits. */
const near = (found, wanted) => assert.ok(found <= wanted + 1 && found > wanted - 60, `${found} s, about ${wanted} s wanted`);
const setTime = async (page, by) => page.clock.setSystemTime(new Date((await page.evaluate(() => Date.now())) + by));
const HOUR = 3_600_000;

test("the device's time is set back while glue dries: the clock goes on and the maker is told", () =>
  visit({ ...bench, frozen: true }, async (page) => {
    const whole = await glue(page);
    near(await left(page), whole - 30);
    await setTime(page, -HOUR);
    await page.clock.runFor(2000);
    near(await left(page), whole - 32);
    assert.match(await page.locator(".clocks").textContent(), /time was set back/);
    await page.reload();
    await page.clock.runFor(2000);
    await page.waitForFunction(() => window.jointwise?.outcome);
    near(await left(page), whole - 34);
  }));

test("the device's time is set on, or it slept: the glue is late and the maker is told why", () =>
  visit({ ...bench, frozen: true }, async (page) => {
    const whole = await glue(page);
    await setTime(page, HOUR);
    await page.clock.runFor(2000);
    near(await left(page), whole - 32 - 3600);
    assert.match(await page.locator(".clocks").textContent(), /slept, or its time was set on by (59|1:00):/);
  }));

test("the device's time is set back while the page is closed: nobody knows, and it says so", () =>
  visit({ ...bench, frozen: true }, async (page) => {
    await glue(page);
    // As kept by a page that was closed an hour later than it is now.
    await page.evaluate((hour) => {
      const key = Object.keys(localStorage).find((one) => one.endsWith("clocks"));
      localStorage.setItem(key, JSON.stringify(JSON.parse(localStorage.getItem(key)).map((one) => ({ ...one, since: one.since + hour }))));
    }, HOUR);
    await page.reload();
    await page.clock.runFor(2000);
    await page.waitForFunction(() => window.jointwise?.outcome);
    assert.equal(await page.getByRole("timer").textContent(), "not known");
    assert.match(await page.locator("#spoken").textContent(), /Take it as too long/);
    await page.getByRole("button", { name: /^Stop the clock/ }).click();
    assert.equal(await page.locator(".clocks li").count(), 0);
  }));

test("a tab that was in the background for a day says how late the glue is, and its ticks are there", () =>
  visit({ ...bench, frozen: true }, async (page) => {
    await button(page, "Done").click();
    const whole = await glue(page);
    const step = await page.evaluate(() => window.jointwise.step);
    await page.clock.fastForward(24 * HOUR);
    await page.clock.runFor(2000);
    near(await left(page), whole - 32 - 86_400);
    assert.match(await page.locator("#spoken").textContent(), /is over/);
    assert.equal(await page.evaluate(() => window.jointwise.step), step);
    assert.match(await page.locator(".count").textContent(), / 1 done$/);
  }));

/** Runs before the page's scripts: keeps hold of the workers, so that a test can break them. */
function hold() {
  const Real = window.Worker;
  window.hired = [];
  window.Worker = class extends Real {
    constructor(...given) {
      super(...given);
      window.hired.push(this);
      this.started = new Promise((started) => this.addEventListener("message", started, { once: true }));
    }
    postMessage(asked) {
      if (asked.kind === "build" && window.deadly && asked.text.includes(window.deadly)) this.started.then(window.kill);
      else super.postMessage(asked);
    }
  };
  window.kill = () => {
    const last = window.hired.at(-1);
    last.terminate();
    // The browser tells of it in a turn of its own.
    setTimeout(() => last.dispatchEvent(new Event("error")));
  };
}

test("a planner that is killed in the middle of a plan starts again, plans it, and says so", () =>
  visit({ scenario, stage: "Measure", setup: hold }, async (page) => {
    const { plan } = await outcome(page);
    const width = await firstWidth(page).inputValue();
    await replanned(page, () => firstWidth(page).fill("600 mm"));
    for (let n = 1; n <= 5; n += 1) {
      const same = await page.evaluate(async () => {
        const planner = await import(new URL("./planner.js", location.href).href);
        const text = JSON.parse(Object.entries(localStorage).find(([key]) => key.includes("#"))[1]).scenario;
        const [before, file] = [planner.plan(text), planner.exportFile(text, "steps.txt")];
        window.kill();
        return [JSON.stringify(await before) === JSON.stringify(window.jointwise.outcome), /Steps/.test(await file)];
      });
      assert.deepEqual(same, [true, true]);
      assert.equal(await page.evaluate(() => window.hired.length), n + 1);
    }
    await page.getByText("The planner had stopped and was started again").waitFor();
    assert.deepEqual((await replanned(page, () => firstWidth(page).fill(width))).plan, plan);
    assert.equal(page.workers().length, 1);
  }));

test("a plan that breaks every planner is given up, and the next one is planned", () =>
  visit({ scenario, stage: "Measure", setup: hold }, async (page) => {
    const { plan } = await outcome(page);
    const width = await firstWidth(page).inputValue();
    await page.evaluate(() => (window.deadly = "601 mm"));
    const { findings } = await replanned(page, () => firstWidth(page).fill("601 mm"));
    assert.deepEqual(findings.map(({ code }) => code), ["planner-stopped"]);
    assert.equal(await page.evaluate(() => window.hired.length), 3, "asked once more, and a fresh one");
    assert.deepEqual((await replanned(page, () => firstWidth(page).fill(width))).plan, plan);
    assert.equal(page.workers().length, 1);
  }));

/** Pages of memory with which the example is planned, but not the largest piece; they take about 80 and 410. */
const MEMORY = 200;

/** A copy of a module whose memory may not grow beyond so many pages of 64 KiB. */
function bounded(bytes, most) {
  const uleb = (n) => (n < 128 ? [n] : [(n & 127) | 128, ...uleb(n >>> 7)]);
  const read = (at) => {
    let [n, shift] = [0, 0];
    for (;;) {
      const byte = bytes[at++];
      n |= (byte & 127) << shift;
      shift += 7;
      if (byte < 128) return [n, at];
    }
  };
  let at = 8;
  while (at < bytes.length) {
    const [size, body] = read(at + 1);
    // The memory section: one memory, its limits as a flag, the least and the most (WebAssembly 2.0, 5.5.8).
    if (bytes[at] === 5) {
      const [, flag] = read(body);
      const [least] = read(flag + 1);
      const limits = [1, 1, ...uleb(least), ...uleb(Math.max(least, most))];
      return Buffer.concat([bytes.subarray(0, at), Buffer.from([5, ...uleb(limits.length), ...limits]), bytes.subarray(body + size)]);
    }
    at = body + size;
  }
  throw new Error("no memory in the module");
}

test("a planner without memory starts again and says so, and a smaller piece is planned", () =>
  withShop(async (running) => {
    const wasm = await readFile(join(SITE, "pkg", "jointwise_planner_bg.wasm"));
    running.site.instead.set("pkg/jointwise_planner_bg.wasm", bounded(wasm, MEMORY));
    const { page, problems } = await open(running, { scenario, stage: "Measure", setup: hold });
    const { plan } = await outcome(page);
    assert.ok(plan, "the example fits into the memory");
    const text = await readFile(join(SITE, "scenarios", "workbench.json"), "utf8");
    const large = await page.evaluate(async (text) => {
      const planner = await import(new URL("./planner.js", location.href).href);
      return planner.plan(text);
    }, text);
    assert.deepEqual(large.findings.map(({ code }) => code), ["planner-stopped"]);
    await page.getByText("The planner had stopped and was started again").waitFor();
    assert.ok((await replanned(page, () => firstWidth(page).fill("600 mm"))).plan);
    assert.equal(page.workers().length, 1);
    // The core says in the console where it stopped; nothing else may go wrong.
    assert.deepEqual(problems.filter((problem) => !/memory|unreachable|RuntimeError/.test(problem)), []);
  }));

test("graphics that are taken away again and again come back each time", () =>
  visit(bench, async (page) => {
    const { plan } = await outcome(page);
    await rest(page);
    await page.evaluate(() => {
      window.lost = document.querySelector("figure canvas").getContext("webgl2").getExtension("WEBGL_lose_context");
    });
    for (let n = 1; n <= 5; n += 1) {
      await page.evaluate(() => window.lost.loseContext());
      await page.locator("figure img.still").waitFor();
      await assertShows(page, plan, 2 * n - 1);
      await page.keyboard.press("PageDown");
      await assertShows(page, plan, 2 * n);
      await page.evaluate(() => window.lost.restoreContext());
      await page.locator("figure canvas").waitFor();
      await page.keyboard.press("PageDown");
      await assertShows(page, plan, 2 * n + 1);
      await rest(page);
    }
  }));

/** What is cut off or out of reach: of the buttons, and of the words. */
const cutOff = (page) =>
  page.evaluate(() => {
    const found = [];
    const over = document.documentElement.scrollWidth - document.documentElement.clientWidth;
    if (over > 0) found.push(`${over} pixels too wide`);
    for (const element of document.querySelectorAll("main :is(button, a[href], select, input, summary), header a")) {
      if (!element.checkVisibility({ visibilityProperty: true }) || element.closest(".drawer:not([data-open])")) continue;
      element.scrollIntoView({ block: "nearest", inline: "nearest" });
      const { left, right, top, bottom, width, height } = element.getBoundingClientRect();
      const name = `${element.localName} ${(element.ariaLabel ?? element.textContent).trim().slice(0, 40)}`;
      if (width === 0 || height === 0) continue;
      if (left < -1 || right > innerWidth + 1 || top < -1 || (bottom > innerHeight + 1 && height < innerHeight)) found.push(`${name}: ${Math.round(left)}…${Math.round(right)} × ${Math.round(top)}…${Math.round(bottom)} in ${innerWidth} × ${innerHeight}`);
      // Words that a button has no room for.
      if (element.localName === "button" && (element.scrollWidth > element.clientWidth + 1 || element.scrollHeight > element.clientHeight + 1) && getComputedStyle(element).overflow !== "visible") found.push(`${name}: its words are cut off`);
    }
    scrollTo(0, 0);
    return found;
  });

/** What is enlarged, the window in its pixels, and the height of the browser's usual letters in them. */
const ENLARGED = [
  ["text of 200 % on a phone", { width: 390, height: 844 }, 32],
  ["text of 200 % on a tablet", { width: 1024, height: 768 }, 32],
  ["a zoom of 200 % on a tablet lying down", { width: 512, height: 384 }, 16],
  ["a zoom of 200 % on a tablet upright", { width: 384, height: 512 }, 16],
];
for (const [what, size, letters] of ENLARGED) {
  test(`${what}: nothing is cut off, and every step is reached`, async () => {
    const running = await launch([`--blink-settings=defaultFontSize=${letters}`]);
    try {
      const { page, problems } = await open(running, { ...bench, ...size });
      assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize), `${letters}px`);
      const { plan } = await outcome(page);
      await rest(page);
      const faults = [];
      for (const stage of STAGES) {
        await go(page, stage);
        for (const fault of await cutOff(page)) faults.push(`${stage}: ${fault}`);
      }
      assert.deepEqual(faults, []);
      await go(page, "Bench");
      // By the finger: only what is in the window and not covered is pressed.
      await button(page, "Next").tap();
      await assertShows(page, plan, 2);
      await button(page, "Back").tap();
      await assertShows(page, plan, 1);
      const sentence = page.locator("[data-step-text]").first();
      await sentence.scrollIntoViewIfNeeded();
      const box = await sentence.boundingBox();
      assert.ok(box.x >= 0 && box.x + box.width <= size.width + 1 && box.y < size.height, "the step's sentence is out of the window");
      const picture = await page.locator("figure.picture").boundingBox();
      assert.ok(Math.min(picture.width, picture.height) >= 90, `the picture is ${picture.width} × ${picture.height}`);
      assert.deepEqual(problems, []);
    } finally {
      await running.close();
    }
  });
}
