// What comes from others is text and nothing else: names that look like markup run nowhere, and files,
// links and kept states that nobody made here are told, lose nothing, and leave a page that works.

import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import { deflateRawSync } from "node:zlib";
import { more } from "./bench.mjs";
import { STAGES, go, launch, open, outcome, replanned, shop } from "./harness.mjs";
import { EXAMPLE, scenarios } from "./site.mjs";

const { visit, browser } = shop();
const all = await scenarios();
const textOf = (wanted) => all.find(({ name }) => name === wanted).text;
const scenario = EXAMPLE;
const bench = { scenario, stage: "Bench" };

/** Each ends another kind of context; names may have 60 characters. */
const MARKUP = [
  '<img src=x onerror="window.ran=1">',
  '"><script>window.ran=1</script>',
  "'/><svg onload=window.ran=1>",
  "]]></title></style><script>window.ran=1</script>",
  "javascript:window.ran=1//",
  "</script><script>window.ran=1</script><!--",
];
const [TITLE] = MARKUP;

/** A scenario with markup for each name in it. */
function poisoned(text) {
  const tree = JSON.parse(text);
  let n = 0;
  const next = () => MARKUP[n++ % MARKUP.length];
  tree.title = TITLE;
  for (const list of [tree.contents, tree.shop?.materials, tree.shop?.tools, tree.piece?.parts, tree.piece?.bodies]) for (const one of list ?? []) one.name = next();
  return JSON.stringify(tree);
}

/** Drops a file of so many texts on the page. */
const drop = (page, text, name = "theirs.json") =>
  page.evaluate(
    ([text, name]) => {
      const data = new DataTransfer();
      data.items.add(new File([text], name, { type: "application/json" }));
      for (const kind of ["dragover", "drop"]) document.body.dispatchEvent(new DragEvent(kind, { dataTransfer: data, bubbles: true, cancelable: true }));
    },
    [text, name],
  );

/** Runs before a page's own scripts: notes what the content policy had to stop. */
function watch() {
  window.violations = [];
  addEventListener("securitypolicyviolation", (event) => window.violations.push(`${event.violatedDirective} ${event.blockedURI}`));
}

/** What of the markup has become elements or has run. */
const harm = (page) =>
  page.evaluate(() => ({
    ran: window.ran ?? 0,
    violations: window.violations ?? [],
    elements: [...document.querySelectorAll("script, img, svg, a, iframe")]
      .filter((one) => one.hasAttribute("onerror") || one.hasAttribute("onload") || /window\.ran/.test(one.localName === "script" && !one.type.includes("json") ? one.textContent : "") || /^\s*javascript:/i.test(one.getAttribute("href") ?? "") || one.getAttribute("src") === "x")
      .map((one) => one.outerHTML.slice(0, 100)),
  }));
const NONE = { ran: 0, violations: [], elements: [] };

for (const name of [EXAMPLE, "root-crate"]) {
  const bad = poisoned(textOf(name));

  test(`${name}: names that look like markup are text on every stage, on paper and in one file`, async () => {
    const folder = await mkdtemp(join(tmpdir(), "hostile-"));
    try {
      const file = join(folder, "theirs.html");
      await visit({ ...bench, setup: watch }, async (page) => {
        await drop(page, bad);
        await page.waitForFunction((title) => window.jointwise.outcome?.plan?.title === title, TITLE);
        let read = "";
        for (const stage of [...STAGES, "Numbers"]) {
          if (stage === "Numbers") await page.evaluate(() => (location.hash = "#numbers"));
          else await go(page, stage);
          await page.locator(`body[data-stage=${stage.toLowerCase()}]`).waitFor();
          read += await page.evaluate(() => document.body.textContent + [...document.querySelectorAll("input")].map((input) => input.value).join(" "));
          assert.deepEqual(await harm(page), NONE, stage);
        }
        await go(page, "Bench");
        await page.evaluate(() => (window.print = () => (window.paper = document.getElementById("paper").textContent)));
        await more(page, /^Print/);
        const paper = await page.waitForFunction(() => window.paper);
        read += await paper.jsonValue();
        assert.deepEqual(await harm(page), NONE, "paper");
        const unseen = MARKUP.filter((text) => bad.includes(JSON.stringify(text)) && !read.includes(text));
        assert.deepEqual(unseen, [], "shown nowhere");
        const [saved] = await Promise.all([page.waitForEvent("download"), more(page, /Save as one file/)]);
        assert.match(saved.suggestedFilename(), /^[\p{L}\p{N}-]+\.html$/u);
        await writeFile(file, await readFile(await saved.path()));
      });
      const context = await browser().newContext();
      const page = await context.newPage();
      const said = [];
      page.on("console", (message) => said.push(message.text()));
      page.on("pageerror", (error) => said.push(String(error.stack)));
      page.on("request", (request) => /^(blob|data):/.test(request.url()) || said.push(request.url()));
      await page.addInitScript(watch);
      const address = pathToFileURL(file).href;
      await page.goto(address);
      await page.waitForFunction((title) => window.jointwise?.outcome?.plan?.title === title, TITLE);
      assert.equal(await page.title(), TITLE);
      assert.deepEqual([await harm(page), said], [NONE, [address]]);
      await context.close();
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  });

  test(`${name}: no file that leaves the page runs the markup in it, in a browser without any policy`, async () => {
    const files = await visit(bench, async (page) => {
      await drop(page, bad);
      await page.waitForFunction((title) => window.jointwise.outcome?.plan?.title === title, TITLE);
      return page.evaluate(async () => {
        const { app } = await import(new URL("./planning.js", document.baseURI).href);
        const { plan } = window.jointwise.outcome;
        const kinds = ["labels.html", "sheet-1.svg", ...plan.steps.map((step) => `step-svg:${step.n}`), ...(plan.install?.steps ?? []).map((step) => `room-svg:${step.n}`), ...plan.parts.map((part) => `part-svg:${part.id}`)];
        return Promise.all(kinds.map(async (kind) => [kind, await app.exportFile(kind)]));
      });
    });
    const folder = await mkdtemp(join(tmpdir(), "hostile-files-"));
    const context = await browser().newContext();
    try {
      const page = await context.newPage();
      const said = [];
      page.on("pageerror", (error) => said.push(String(error)));
      page.on("request", (request) => request.url().startsWith("file:") || said.push(request.url()));
      let told = "";
      for (const [i, [kind, text]] of files.entries()) {
        if (text === undefined) continue;
        const file = join(folder, `${i}.${/html/.test(kind) ? "html" : "svg"}`);
        await writeFile(file, text);
        await page.goto(pathToFileURL(file).href);
        told += await page.evaluate(() => document.documentElement.textContent);
        // A drawing that is no well-formed XML is shown as the browser's own complaint.
        assert.deepEqual([await harm(page), await page.locator("parsererror").count(), said], [NONE, 0, []], kind);
      }
      assert.ok(files.filter(([, text]) => text !== undefined).length > 20, "next to nothing was exported");
      assert.ok(MARKUP.some((text) => told.includes(text)), "no name is in any file");
    } finally {
      await context.close();
      await rm(folder, { recursive: true, force: true });
    }
  });
}

/** The page still plans what is typed. */
async function works(page) {
  await go(page, "Measure");
  const { plan } = await replanned(page, () => page.getByLabel(/^Width \d+$/).first().fill("600 mm"));
  assert.ok(plan, "no plan of what was typed afterwards");
}

const nested = (n) => "[".repeat(n) + "]".repeat(n);
const titled = (title) => `{"format":"jointwise-scenario/1","title":${title}}`;

const FILES = [
  ["of 50 MB that is no JSON", () => "x".repeat(50_000_000), /too large/],
  ["of 50 MB that is JSON", () => titled(`"${"x".repeat(50_000_000)}"`), /too large/],
  ["of 100,000 brackets", () => nested(100_000), /nested/],
  ["with 100,000 brackets in a field", () => titled(nested(100_000)), /nested/],
  ["with nothing in it", () => "", /./],
  ["that is cut off", () => textOf(EXAMPLE).slice(0, 900), /./],
  ["of bytes by chance", () => String.fromCharCode(...Array.from({ length: 5000 }, (_, i) => (i * 7919 + 13) % 256)), /./],
];
for (const [what, text, why] of FILES) {
  test(`a file ${what} is told, and what was there stays`, () =>
    visit(bench, async (page) => {
      const { plan } = await outcome(page);
      const kept = () => page.evaluate(() => JSON.stringify(Object.entries(localStorage).sort()));
      const before = await kept();
      const made = text();
      // Made in the page: the driver would take longer over 50 MB than the page.
      if (made.length > 1_000_000) {
        await page.evaluate(
          ([head, fill, tail, n]) => {
            const data = new DataTransfer();
            data.items.add(new File([head, fill.repeat(n), tail], "theirs.json"));
            document.body.dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
          },
          made.startsWith("x") ? ["", "x", "", made.length] : [titled('"').slice(0, -1), "x", '"}', 50_000_000],
        );
      } else {
        await drop(page, made);
      }
      const notice = page.locator("#notice", { hasText: "theirs.json was not opened" });
      await notice.waitFor();
      assert.match(await notice.textContent(), why);
      assert.match(await notice.textContent(), /What you had is still here/);
      assert.deepEqual((await outcome(page)).plan, plan);
      assert.equal(await kept(), before);
      await works(page);
    }));
}

test("a folder that is dropped is told", () =>
  visit(bench, async (page) => {
    await page.evaluate(() => {
      const data = new DataTransfer();
      const file = new File(["{}"], "folder");
      // What a browser does with a folder: it is among the files and cannot be read.
      file.text = () => Promise.reject(new DOMException("could not be found", "NotFoundError"));
      data.items.add(file);
      const event = new DragEvent("drop", { bubbles: true, cancelable: true });
      Object.defineProperty(event, "dataTransfer", { value: { types: ["Files"], files: [file] } });
      document.body.dispatchEvent(event);
    });
    await page.locator("#notice", { hasText: "folder was not opened" }).waitFor();
    await works(page);
  }));

const base64url = (bytes) => Buffer.from(bytes).toString("base64url");
const packed = (text) => `1.${base64url(deflateRawSync(text))}`;
const LINKS = [
  ["that unpacks to 300 MB", () => `1.${base64url(deflateRawSync(Buffer.alloc(300_000_000, " ")))}`],
  ["packed in another version", () => packed("{}").replace(/^1/, "7")],
  ["that is cut off", () => packed(textOf(EXAMPLE)).slice(0, 400)],
  ["of bytes by chance", () => `1.${base64url(Uint8Array.from({ length: 900 }, (_, i) => (i * 7919 + 13) % 256))}`],
  ["of 100,000 brackets", () => packed(nested(100_000))],
  ["with 100,000 brackets in a field", () => packed(titled(nested(100_000)))],
  ["with text that is no UTF-8", () => `1.${base64url(deflateRawSync(Buffer.from([0x7b, 0xff, 0xfe, 0x7d])))}`],
];
for (const [what, link] of LINKS) {
  test(`a link ${what} is told, and what was there stays`, () =>
    visit({ ...bench, hash: `#open=${link()}&step=2` }, async (page) => {
      await page.locator("#notice", { hasText: "The link does not hold a build" }).waitFor();
      const { plan } = await outcome(page);
      assert.ok(plan, "the example is shown");
      await works(page);
    }));
}

const PROTO = ["__proto__", "constructor", "prototype", "toString", "hasOwnProperty", "valueOf"];

test("keys and ids that every object has are fields like others", () =>
  visit(bench, async (page) => {
    const tree = JSON.parse(textOf("root-crate"));
    const renamed = Object.fromEntries(tree.piece.parts.map((part, i) => [part.id, PROTO[i]?.replaceAll(/[^a-z]/g, "-").replaceAll(/^-+|-+$/g, "") || part.id]));
    for (const part of tree.piece.parts) part.name = PROTO[tree.piece.parts.indexOf(part)] ?? part.id;
    for (const part of tree.piece.parts) part.id = renamed[part.id];
    for (const joint of tree.piece.joints) joint.parts = joint.parts.map((id) => renamed[id]);
    await drop(page, JSON.stringify({ ...tree, title: "ids" }));
    await page.waitForFunction(() => window.jointwise.outcome?.plan?.title === "ids");
    const text = textOf(EXAMPLE);
    for (const key of PROTO) {
      const bad = text.replace("{", `{ ${JSON.stringify(key)}: { "polluted": 1, "title": "polluted", "unit": "mm" },`);
      await replanned(page, () => drop(page, bad));
      const { findings } = await outcome(page);
      assert.ok(findings.some(({ where, message }) => `${where} ${message}`.includes(key)), `${key} is not told`);
      for (const stage of STAGES) await go(page, stage);
      assert.deepEqual(await page.evaluate(() => [{}.polluted, {}.title, [].polluted, Object.keys(Object.prototype)]), [null, null, null, []].map((one) => one ?? undefined));
    }
  }));

/** What may stand in the storage: written by an older page, by a fault, by somebody. */
const STATES = [
  ["no JSON", "{]"],
  ["null", "null"],
  ["a number", "17"],
  ["a list", "[[]]"],
  ["a scenario that is null", JSON.stringify({ scenario: "null" })],
  ["a scenario that is a number", JSON.stringify({ scenario: "5", good: "6", step: -1, stage: {} })],
  ["a scenario of brackets", JSON.stringify({ scenario: nested(100_000), step: 1e99 })],
  ["a good one of brackets", JSON.stringify({ scenario: textOf(EXAMPLE), good: nested(100_000), stage: "bench" })],
  ["keys that every object has", '{"__proto__":{"polluted":1},"scenario":"{\\"__proto__\\":{\\"polluted\\":1}}","ticks":{"constructor":1,"done":{"length":9}}}'],
  ["ticks without end", JSON.stringify({ scenario: textOf(EXAMPLE), stage: "cut", step: 3, ticks: { searched: 1e15, done: Array.from({ length: 5000 }, (_, i) => i * 1e12), spoiled: [null, "__proto__", TITLE] } })],
  ["markup", JSON.stringify({ scenario: poisoned(textOf(EXAMPLE)), stage: TITLE, step: 2 })],
];
for (const [what, value] of STATES) {
  test(`kept progress that is ${what} does not stop the page`, () =>
    visit(bench, async (page) => {
      await page.evaluate(
        ([value]) => {
          const keys = Object.keys(localStorage);
          const prefix = keys.find((key) => key.includes("#")).split("#")[0];
          // As if it had been there from the beginning: what leaves the page must not write over it.
          const theirs = { ...Object.fromEntries(keys.map((key) => [key, value])), [`${prefix}# own`]: value, [`${prefix}clocks`]: value, [`${prefix}settings`]: value, [`${prefix}aside`]: value };
          for (const [key, text] of Object.entries(theirs)) if (!key.endsWith("last")) localStorage.setItem(key, text);
        },
        [value],
      );
      await page.reload();
      await page.waitForFunction(() => window.jointwise?.outcome);
      assert.deepEqual(await page.evaluate(() => [window.ran ?? 0, {}.polluted ?? 0]), [0, 0]);
      for (const stage of STAGES) await go(page, stage);
      await page.evaluate(() => {
        const prefix = Object.keys(localStorage).find((key) => key.includes("#")).split("#")[0];
        localStorage.removeItem(`${prefix}last`);
      });
      // The file of one's own, kept in the same way.
      await page.goto(page.url().replace(/\?[^#]*/, "?scenario="));
      await page.waitForFunction(() => window.jointwise?.outcome);
      await drop(page, textOf(EXAMPLE));
      await page.waitForFunction(() => window.jointwise.outcome?.plan);
      await works(page);
    }));
}

test("an example by an address that nobody offers is told", async () => {
  const running = await launch();
  try {
    const { page, problems } = await open(running, bench);
    const { plan } = await outcome(page);
    for (const name of [TITLE, "../index", "__proto__", "a".repeat(500)]) {
      await page.evaluate((name) => import(new URL("./planning.js", document.baseURI).href).then(({ app }) => app.loadExample(name)), name);
      await page.locator("#notice", { hasText: `The example “${name}” cannot be fetched` }).waitFor();
      assert.deepEqual(await harm(page), NONE);
    }
    assert.deepEqual((await outcome(page)).plan, plan);
    // That the host has no such file is said in the console, and nothing else.
    assert.deepEqual(problems.filter((problem) => !/404/.test(problem) || /outside/.test(problem)), []);
  } finally {
    await running.close();
  }
});
