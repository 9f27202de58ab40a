// What leaves the device and comes back: link and code, one file, model, paper, scenario file.

import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { pathToFileURL } from "node:url";
import { deflateRawSync } from "node:zlib";
import validator from "gltf-validator";
import jsqr from "jsqr";
import { assertShows, benchSteps, more } from "./bench.mjs";
import { outcome, shop } from "./harness.mjs";
import { load } from "./module.mjs";
import { EXAMPLE, scenarios } from "./site.mjs";

const { visit, browser } = shop();
const all = await scenarios();
const { name: scenario, text: scenarioText } = all.find(({ name }) => name === EXAMPLE);
const bench = { scenario, stage: "Bench" };
const read = jsqr.default ?? jsqr;

/** The rows of modules of a code, read by other makers' reader. */
function decoded(rows) {
  const [quiet, scale] = [4, 4];
  const side = (rows.length + 2 * quiet) * scale;
  const pixels = new Uint8ClampedArray(side * side * 4).fill(255);
  rows.forEach((row, y) =>
    row.forEach((dark, x) => {
      for (let i = 0; dark && i < scale * scale; i += 1) {
        const at = (((y + quiet) * scale + Math.floor(i / scale)) * side + (x + quiet) * scale + (i % scale)) * 4;
        pixels.fill(0, at, at + 3);
      }
    }),
  );
  return read(pixels, side, side)?.data;
}

test("codes of every size are read by another reader", () =>
  visit(bench, async (page) => {
    const texts = [1, 17, 18, 60, 130, 200, 271, 272, 500, 900, 1300, 1800].map((n) => Array.from({ length: n }, (_, i) => "aZ09-_.#=&/:"[(i * 7 + n) % 12]).join(""));
    const codes = await page.evaluate(async (texts) => {
      const { qr } = await import(new URL("./share/qr.js", document.baseURI).href);
      return [texts.map((text) => qr(text)), qr("x".repeat(2954)), qr("x".repeat(2953)).length];
    }, texts);
    codes[0].forEach((rows, i) => assert.equal(decoded(rows), texts[i], `${texts[i].length} characters`));
    // 2,953 bytes are the most at the lowest level (ISO/IEC 18004, table 7).
    assert.deepEqual([codes[1], codes[2]], [null, 177]);
  }));

test("the link opens the same build at the same step on another device, and sets nothing aside unasked", () =>
  visit(bench, async (page) => {
    const { plan } = await outcome(page);
    for (let k = 0; k < 4; k += 1) await page.keyboard.press("PageDown");
    await more(page, /Send this build/);
    const link = await page.getByLabel("Link", { exact: true }).inputValue();
    const rows = await page.evaluate(async (link) => (await import(new URL("./share/qr.js", document.baseURI).href)).qr(link), link);
    assert.equal(decoded(rows), link);
    assert.ok(await page.locator("svg.code").isVisible());
    await visit({ hash: new URL(link).hash, width: 390, height: 844 }, async (phone) => {
      assert.deepEqual((await outcome(phone)).plan, plan);
      await assertShows(phone, plan, 5);
      assert.equal(await phone.evaluate(() => location.hash), "#bench", "the address no longer carries it");
      await phone.keyboard.press("PageDown");
      await phone.reload();
      await phone.waitForFunction(() => window.jointwise?.outcome);
      await assertShows(phone, plan, 6);
    });
  }));

test("a link that is none, of another version or a bomb is told, and what was there stays", () => {
  const base64url = (bytes) => Buffer.from(bytes).toString("base64url");
  const bomb = base64url(deflateRawSync(Buffer.alloc(50_000_000, " ")));
  const texts = ["1.AAAA", `2.${base64url(deflateRawSync("{}"))}`, `1.${bomb}`, `1.${base64url(deflateRawSync("{]"))}`];
  return visit({ hash: "#open=1.%%%&step=2" }, async (page) => {
    const { plan } = await outcome(page);
    assert.ok(plan, "the first example is shown");
    for (const packed of texts) {
      await page.evaluate((hash) => {
        document.getElementById("notice").textContent = "";
        location.hash = hash;
      }, `#open=${packed}&step=2`);
      await page.getByText("The link does not hold a build").waitFor();
      assert.deepEqual((await outcome(page)).plan, plan);
    }
  });
});

test("a file that is opened sets the own one before it aside, and drops are taken", () =>
  visit(bench, async (page) => {
    const own = (title) => JSON.stringify({ ...JSON.parse(scenarioText), title });
    const drop = async (title) => {
      await page.evaluate((text) => {
        const data = new DataTransfer();
        data.items.add(new File([text], "mine.json", { type: "application/json" }));
        for (const kind of ["dragover", "drop"]) document.body.dispatchEvent(new DragEvent(kind, { dataTransfer: data, bubbles: true, cancelable: true }));
      }, own(title));
      await page.waitForFunction((title) => window.jointwise.outcome?.plan?.title === title, title);
    };
    await drop("first of mine");
    await drop("second of mine");
    await page.getByRole("button", { name: "Back to it" }).click();
    await page.waitForFunction(() => window.jointwise.outcome?.plan?.title === "first of mine");
    const [saved] = await Promise.all([page.waitForEvent("download"), more(page, /Save the scenario file/)]);
    assert.equal(saved.suggestedFilename(), "first-of-mine.json");
    assert.deepEqual(JSON.parse(await readFile(await saved.path(), "utf8")), JSON.parse(own("first of mine")));
  }));

test("saved as one file it runs from a stick: same plan, same step, nothing fetched", async () => {
  const folder = await mkdtemp(join(tmpdir(), "one-file-"));
  try {
    const file = join(folder, "build.html");
    const plan = await visit(bench, async (page) => {
      await page.keyboard.press("PageDown");
      const [saved] = await Promise.all([page.waitForEvent("download"), more(page, /Save as one file/)]);
      await writeFile(file, await readFile(await saved.path()));
      return (await outcome(page)).plan;
    });
    const context = await browser().newContext({ viewport: { width: 1024, height: 768 }, hasTouch: true });
    const page = await context.newPage();
    const said = [];
    page.on("console", (message) => said.push(`${message.type()}: ${message.text()}`));
    page.on("pageerror", (error) => said.push(String(error.stack)));
    page.on("request", (request) => /^(blob|data):/.test(request.url()) || said.push(request.url()));
    const address = pathToFileURL(file).href;
    await page.goto(address);
    await page.waitForFunction(() => window.jointwise?.outcome?.plan);
    assert.deepEqual((await outcome(page)).plan, plan);
    await assertShows(page, plan, 2);
    // Every stage is in it, and the numbers behind them.
    assert.deepEqual(
      await page.locator("header a").evaluateAll((links) => links.map((link) => link.getAttribute("href"))),
      ["#measure", "#size", "#cut", "#bench", "#install", "#numbers"],
    );
    await page.getByRole("button", { name: "Next", exact: true }).tap();
    await assertShows(page, plan, 3);
    // It can be saved on from there, and that one runs too.
    const [again] = await Promise.all([page.waitForEvent("download"), more(page, /Save as one file/)]);
    const other = join(folder, "again.html");
    await writeFile(other, await readFile(await again.path()));
    await page.goto(pathToFileURL(other).href);
    await page.waitForFunction(() => window.jointwise?.outcome?.plan);
    await assertShows(page, plan, 3);
    await context.close();
    // The worker runs, the policy lets it all pass, and only the two files were asked for.
    assert.deepEqual(said, [address, pathToFileURL(other).href]);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});

test("on paper each step has its drawing, and the pages are A4 or letter", () =>
  visit(bench, async (page) => {
    const { plan } = await outcome(page);
    await page.evaluate(() => (window.print = () => (window.printed = (window.printed ?? 0) + 1)));
    for (const [i, [format, box]] of [["A4", /\/MediaBox \[0 0 59[45][\d.]* 84[12]/], ["Letter", /\/MediaBox \[0 0 612 792/]].entries()) {
      await more(page, /^Print/);
      await page.waitForFunction((n) => window.printed === n, i + 1);
      await page.emulateMedia({ media: "print" });
      // First the bench, then the room.
      const all = [...plan.steps, ...plan.install.steps];
      const paper = await page.evaluate(() => ({
        steps: document.querySelectorAll(".paper-step").length,
        drawings: [...document.querySelectorAll(".paper-step img")].filter((image) => image.naturalWidth > 0).length,
        texts: [...document.querySelectorAll(".paper-step [data-step-text]")].map((element) => element.textContent.replace(/\s+/g, " ").trim()),
        rows: document.querySelectorAll(".paper tbody tr").length,
        code: document.querySelectorAll(".paper svg.code").length,
        wide: document.querySelector(".paper").scrollWidth - document.querySelector(".paper").clientWidth,
      }));
      assert.deepEqual([paper.steps, paper.drawings, paper.code, paper.wide], [all.length, all.length, 1, 0]);
      assert.deepEqual(paper.texts, all.map((step) => step.text.replace(/\s+/g, " ").trim()));
      assert.ok(paper.rows > 5);
      const pdf = (await page.pdf({ format })).toString("latin1");
      const pages = pdf.match(/\/Type\s*\/Page\b/g).length;
      assert.match(pdf, box);
      assert.ok(pages > all.length / 6 && pages <= all.length, `${pages} pages for ${all.length} steps`);
      await page.emulateMedia({ media: null });
      // What was put in for the paper is gone again.
      assert.equal(await page.locator("#paper").count(), 0);
    }
  }));

for (const { name, text } of all) {
  test(`${name}: the model is valid glTF, with a node for each part and an animation for each step`, async () => {
    const { Session } = await load();
    const session = new Session();
    const { plan } = JSON.parse(session.build(text));
    const bytes = session.model();
    const report = await validator.validateBytes(new Uint8Array(bytes));
    const { numErrors, numWarnings, messages } = report.issues;
    assert.deepEqual([numErrors, numWarnings], [0, 0], JSON.stringify(messages.slice(0, 5), null, 1));
    assert.equal(report.info.animationCount, plan.steps.length);
    const length = new DataView(bytes.buffer, bytes.byteOffset).getUint32(12, true);
    const json = JSON.parse(new TextDecoder().decode(bytes.slice(20, 20 + length)));
    assert.deepEqual(json.nodes.flatMap((node) => node.extras?.id ?? []), plan.parts.map((part) => part.id));
    assert.equal(benchSteps(plan).length > 0, true);
  });
}
