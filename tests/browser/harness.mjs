// Opens the page in Chromium for a test, and holds it to silence: an error in the console, an
// error on the page, or a request that leaves the site fails the test that opened it.

import assert from "node:assert/strict";
import { existsSync } from "node:fs";
import { after, before } from "node:test";
import { chromium } from "playwright-core";
import { serve } from "./site.mjs";

/** A tablet lying down and a phone upright. */
export const SIZES = [
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
];

/** The stages, in the order of the job. */
export const STAGES = ["Measure", "Size", "Cut", "Bench", "Install"];

const CHROMIUM = process.env.CHROMIUM ?? ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].find(existsSync);

// The software renderer is named, so that every machine draws alike; the rest keeps the browser
// from talking to anybody.
const FLAGS = [
  "--no-sandbox",
  "--use-angle=swiftshader",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--no-first-run",
  "--disable-quic",
];

/** Launches the browser and the site. `flags` are more of the browser's own. */
export async function launch(flags = []) {
  if (!CHROMIUM) throw new Error("no Chromium found: install it or name one in CHROMIUM");
  const site = await serve();
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: [...FLAGS, ...flags] });
  return {
    site,
    browser,
    close: async () => {
      await browser.close();
      site.close();
    },
  };
}

/** A browser and a site of a test's own, closed when it ends. */
export async function withShop(body) {
  const running = await launch();
  try {
    await body(running);
  } finally {
    await running.close();
  }
}

/** Waits until the site is kept whole. */
export async function kept(page) {
  const whole = () =>
    page.evaluate(async () => {
      if (navigator.serviceWorker.controller === null) return false;
      const list = await (await fetch(new URL("./sw-files.js", document.baseURI))).text();
      const files = [...list.matchAll(/": ?"[0-9a-f]+"/g)].length;
      const [name] = await caches.keys();
      return name !== undefined && (await (await caches.open(name)).keys()).length === files;
    });
  for (let tries = 0; !(await whole()); tries += 1) {
    assert.ok(tries < 200, "the site is not kept");
    await page.waitForTimeout(100);
  }
}

/** A browser and a site for all tests of a file. Call once, at the top. */
export function shop() {
  let running;
  before(async () => {
    running = await launch();
  });
  after(async () => {
    await running?.close();
  });
  return {
    /** Opens the page, runs the body with it, then asserts that nothing went wrong meanwhile. */
    async visit(options, body) {
      const visit = await open(running, options);
      try {
        const result = await body(visit.page);
        assert.deepEqual(visit.problems, [], "the page was not silent");
        return result;
      } catch (error) {
        if (visit.problems.length > 0) error.message += `\nthe page said: ${visit.problems.join("\n")}`;
        throw error;
      } finally {
        await visit.context.close();
      }
    },
    /** The browser itself, once it runs. */
    browser: () => running.browser,
  };
}

/**
 * Opens the page.
 * `scenario`: name of an example. `stage`: one of STAGES. `dark`, `reduced`: what the device asks.
 * `frozen`: time stands still when the test says so. `setup`: a function run before the page's own.
 * `pictures`: the test takes pictures, for which the driver needs a style of its own; only then is
 * the page's content policy set aside.
 */
export async function open({ browser, site }, options = {}) {
  const { width = 1024, height = 768, scenario, stage, dark = false, reduced = false, frozen = false, pictures = false, setup, worker = false, hash, permissions = [] } = options;
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: dark ? "dark" : "light",
    reducedMotion: reduced ? "reduce" : "no-preference",
    hasTouch: true,
    serviceWorkers: worker ? "allow" : "block",
    permissions,
    bypassCSP: pictures,
  });
  const problems = [];
  // A fault in drawing comes back with every frame; once is enough to read.
  const note = (problem) => {
    if (!problems.includes(problem) && problems.length < 10) problems.push(problem);
  };
  await context.route(
    (url) => !url.href.startsWith(site.address),
    (route) => {
      note(`asked outside the site: ${route.request().url()}`);
      return route.abort();
    },
  );
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  page.on("console", (message) => {
    if (message.type() === "error") note(`console: ${message.text()}`);
  });
  page.on("pageerror", (error) => note(`error: ${error.stack ?? error}`));
  page.on("crash", () => note("the page crashed"));
  page.on("response", (response) => {
    if (response.status() >= 400) note(`${response.status()}: ${response.url()}`);
  });
  if (frozen) await page.clock.install();
  if (setup) await page.addInitScript(setup);
  const query = scenario ? `?scenario=${encodeURIComponent(scenario)}` : "";
  await page.goto(site.address + query + (hash ?? (stage ? `#${stage.toLowerCase()}` : "")));
  // An example's plan is there before its planner is.
  await page.waitForFunction(() => window.jointwise?.outcome && window.jointwise.planner !== "waits");
  // The self-hosted face changes the width of every word when it arrives.
  await page.evaluate(() => document.fonts.ready);
  return { page, context, problems };
}

/** Goes to a stage by its link. */
export async function go(page, stage) {
  const link = page.getByRole("navigation", { name: "Stages" }).getByRole("link", { name: stage, exact: true });
  await link.click();
  await link.and(page.locator('[aria-current="page"]')).waitFor();
}

/** What the core made of the scenario, as the page holds it. */
export function outcome(page) {
  return page.evaluate(() => window.jointwise.outcome);
}

/** Does something that plans anew, and gives what came of it. */
export async function replanned(page, act) {
  await page.evaluate(() => {
    window.before = window.jointwise.outcome;
  });
  await act();
  await page.waitForFunction(() => window.jointwise.outcome !== window.before);
  return outcome(page);
}

/** Waits until the picture shows what it was last asked for. */
export function drawn(page) {
  return page.evaluate(async () => {
    const { app } = await import(new URL("./planning.js", document.baseURI).href);
    await app.picture.quiet();
  });
}

/** Waits until nothing moves. */
export async function rest(page) {
  await page.waitForFunction(() => window.jointwise.motion === "rest");
}
