// In a shop without network: after one visit the site works with its server gone, and a new
// version is taken over without losing the place.

import assert from "node:assert/strict";
import { readFile, readdir } from "node:fs/promises";
import { join } from "node:path";
import { test } from "node:test";
import { assertShows } from "./bench.mjs";
import { kept, open, outcome, rest, withShop } from "./harness.mjs";
import { EXAMPLE, SITE } from "./site.mjs";

const [scenario, other] = [EXAMPLE, "potting-shed"];
const press = (page, name) => page.getByRole("button", { name, exact: true }).tap();

test("after one visit everything works with the server gone", () =>
  withShop(async (running) => {
    const { page, problems } = await open(running, { scenario, stage: "Bench", worker: true });
    const { plan } = await outcome(page);
    await press(page, "Next");
    await assertShows(page, plan, 2);
    await kept(page);
    running.site.close();
    await page.reload();
    await page.waitForFunction(() => window.jointwise?.outcome);
    assert.deepEqual((await outcome(page)).plan, plan);
    await assertShows(page, plan, 2);
    await press(page, "Next");
    await rest(page);
    await assertShows(page, plan, 3);
    // Another example was never opened, and is there all the same.
    await page.goto(`${running.site.address}?scenario=${other}#bench`);
    await page.waitForFunction(() => window.jointwise?.outcome?.plan);
    assert.deepEqual(problems, []);
  }));

test("a new version is offered, and taken with the place kept", () =>
  withShop(async (running) => {
    const { page, problems } = await open(running, { scenario, stage: "Bench", worker: true });
    const { plan } = await outcome(page);
    await kept(page);
    await press(page, "Next");
    await assertShows(page, plan, 2);
    const list = await readFile(join(SITE, "sw-files.js"), "utf8");
    const icon = (await readFile(join(SITE, "icon.svg"), "utf8")).replace("</svg>", "<!-- new --></svg>");
    running.site.instead.set("icon.svg", icon);
    running.site.instead.set("sw-files.js", list.replace(/version: ?"/, '$&n').replace(/("icon\.svg": ?")/, "$1n").replace(/"version": ?"/, '$&n'));
    await page.reload();
    const offer = page.getByRole("button", { name: "Load it now" });
    await offer.waitFor();
    // Until then the old one is served.
    const served = () => page.evaluate(async () => (await fetch(new URL("./icon.svg", document.baseURI))).text());
    assert.ok(!(await served()).includes("new"));
    await Promise.all([page.waitForNavigation(), offer.tap()]);
    await page.waitForFunction(() => window.jointwise?.outcome);
    await assertShows(page, plan, 2);
    assert.ok((await served()).includes("new"));
    assert.equal((await page.evaluate(() => caches.keys())).length, 1, "the old version is gone");
    assert.deepEqual(problems, []);
  }));

test("the list names every file of the site, and nothing that is not there", async () => {
  const text = await readFile(join(SITE, "sw-files.js"), "utf8");
  const self = {};
  new Function("self", text)(self);
  const listed = Object.keys(self.SITE.files).map((name) => (name === "./" ? "index.html" : name)).sort();
  const there = (await readdir(SITE, { recursive: true, withFileTypes: true }))
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(SITE.replace(/\/$/, "").length + 1))
    // Plans of examples are for pages that are not kept yet.
    .filter((name) => !["sw.js", "sw-files.js"].includes(name) && !name.startsWith("scenarios/planned/"))
    .sort();
  assert.deepEqual(listed, there);
});

test("it can be installed: name, start, and icons that are there", async () => {
  const manifest = JSON.parse(await readFile(join(SITE, "manifest.webmanifest"), "utf8"));
  assert.deepEqual([manifest.start_url, manifest.scope, manifest.display], ["./", "./", "standalone"]);
  for (const { src, sizes, type } of manifest.icons) {
    const bytes = await readFile(join(SITE, src));
    if (type !== "image/png") continue;
    // Width and height stand at the start of the header chunk (PNG, ISO/IEC 15948, 11.2.2).
    assert.equal(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`, sizes, src);
  }
});
