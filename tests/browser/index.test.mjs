// The page of many builds that the command writes: a browser shows it, from a disk and from a host, without
// running anything, and with every picture.

import assert from "node:assert/strict";
import { createServer } from "node:http";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { extname, join } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import axe from "axe-core";
import { shop } from "./harness.mjs";
import { build } from "./native.mjs";
import { scenarios } from "./site.mjs";

const { browser } = shop();
const TITLE = '<img src=x onerror="window.ran=1"><script>window.ran=1</script>';
const TYPES = { ".html": "text/html", ".css": "text/css", ".svg": "image/svg+xml" };

test("the page of many builds shows all pictures, runs nothing and has no fault that axe knows", async () => {
  const folder = await mkdtemp(join(tmpdir(), "builds-"));
  const server = createServer(async (request, response) => {
    const path = decodeURIComponent(new URL(request.url, "http://localhost").pathname);
    const body = await readFile(join(folder, "out", path)).catch(() => undefined);
    // A browser asks every host for an icon.
    response.writeHead(body ? 200 : path === "/favicon.ico" ? 204 : 404, { "content-type": TYPES[extname(path)] ?? "text/plain; charset=utf-8" }).end(body);
  });
  try {
    const all = (await scenarios()).filter(({ name }) => ["root-crate", "hall-console"].includes(name));
    const given = await Promise.all(
      [...all.map(({ text }) => text), "{}"].map(async (text, n) => {
        const file = join(folder, `build #${n} & 100 %.json`);
        await writeFile(file, JSON.stringify({ ...JSON.parse(text), title: TITLE }));
        return file;
      }),
    );
    assert.equal(build(given, join(folder, "out")), 1);
    await new Promise((done) => server.listen(0, "127.0.0.1", done));
    const context = await browser().newContext({ viewport: { width: 390, height: 844 } });
    const page = await context.newPage();
    const said = [];
    page.on("console", (message) => said.push(message.text()));
    page.on("pageerror", (error) => said.push(String(error)));
    for (const address of [pathToFileURL(join(folder, "out", "index.html")).href, `http://127.0.0.1:${server.address().port}/index.html`]) {
      await page.goto(address);
      const found = await page.evaluate(async () => {
        for (const image of document.images) {
          image.scrollIntoView();
          await image.decode();
        }
        return {
          wide: [...document.images].map((image) => image.naturalWidth > 0),
          heads: [...document.querySelectorAll("h2")].map((head) => head.textContent),
          styled: getComputedStyle(document.querySelector("ul.builds")).display,
          over: document.documentElement.scrollWidth - document.documentElement.clientWidth,
          ran: window.ran ?? 0,
        };
      });
      assert.deepEqual(found, { wide: [true, true], heads: [TITLE, TITLE, "build #2 & 100 %"], styled: "grid", over: 0, ran: 0 });
      await page.getByRole("link", { name: /^Steps/ }).first().click();
      await page.getByText("Steps").first().waitFor();
    }
    await page.goBack();
    // Put in by the driver, past the page's policy, which lets nothing run.
    const looking = await browser().newContext({ bypassCSP: true });
    const other = await looking.newPage();
    await other.goto(page.url());
    await other.evaluate(axe.source);
    const { violations } = await other.evaluate(() => window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"] }));
    assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(" "))}`), []);
    assert.deepEqual(said, []);
    await Promise.all([context.close(), looking.close()]);
  } finally {
    server.closeAllConnections();
    server.close();
    await rm(folder, { recursive: true, force: true });
  }
});
