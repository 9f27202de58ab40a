// The page's words: both catalogues hold the same entries, and the page says nothing that is in neither.

import assert from "node:assert/strict";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { test } from "node:test";
import { open, outcome, rest, withShop } from "./harness.mjs";
import { ROOT, scenarios } from "./site.mjs";

const WWW = join(ROOT, "www");

/** Files whose sentences are the core's, in its language: names of fields in its sentences, and remarks in its shape. */
const OF_THE_CORE = ["field-words.js", "engine.js", "planner.js"];

/** What looks like a sentence and is none, or is the same in every language. */
const NO_WORDS = new Set([
  "Arrow", "ArrowRight", "ArrowLeft", "ArrowUp", "ArrowDown", "PageDown", "PageUp", "Escape", "Files",
  "CompressionStream", "SpeechSynthesisUtterance", "take over", "sq ft", "light dark", "Jointwise", "English", "Deutsch",
  // How the core begins a sentence, and a drawing's class.
  "Spread glue", "wall above",
]);

/** A slash begins an expression's pattern after these, and divides after anything else. */
const BEFORE_PATTERN = /[(,=:[!&|?{};>\n]$|\breturn$|^$/;

/** The text literals of a script, each with the code before it on its line. */
function literals(script) {
  const found = [];
  let code = "";
  let at = 0;
  const quoted = (end) => {
    const from = (at += 1);
    while (at < script.length && script[at] !== end) at += script[at] === "\\" ? 2 : 1;
    found.push({ text: script.slice(from, at), before: code.split("\n").at(-1) });
    code += "_";
    at += 1;
  };
  const template = () => {
    at += 1;
    let text = "";
    const before = code.split("\n").at(-1);
    while (at < script.length && script[at] !== "`") {
      if (script.startsWith("${", at)) {
        at += 2;
        text += "\u0000";
        plain("}");
      } else {
        text += script.slice(at, at + (script[at] === "\\" ? 2 : 1));
        at += script[at] === "\\" ? 2 : 1;
      }
    }
    found.push({ text, before });
    code += "_";
    at += 1;
  };
  function plain(end) {
    for (let deep = 0; at < script.length; ) {
      const sign = script[at];
      if (sign === end && deep === 0) break;
      if (script.startsWith("//", at)) at = (script.indexOf("\n", at) + script.length) % script.length;
      else if (script.startsWith("/*", at)) at = script.indexOf("*/", at) + 2;
      else if (sign === '"' || sign === "'") quoted(sign);
      else if (sign === "`") template();
      else if (sign === "/" && BEFORE_PATTERN.test(code.replace(/[ \t]+$/, ""))) {
        for (let inside = false; script[(at += 1)] !== "/" || inside; ) {
          if (script[at] === "\\") at += 1;
          else if (script[at] === "[") inside = true;
          else if (script[at] === "]") inside = false;
        }
        at += 1;
        code += "_";
      } else {
        if (sign === "{") deep += 1;
        if (sign === "}") deep -= 1;
        code += sign;
        at += 1;
      }
    }
    if (end) at += 1;
  }
  plain("");
  return found;
}

/** Whether a literal reads like words for a reader: two in a row, or one with a capital. */
function isSaid({ text, before }) {
  const words = text.replaceAll("\u0000", " ").trim();
  if (NO_WORDS.has(words) || /(class|className)[:"]?\s*[:=]?\s*[^,]*$|console\.\w+\($|Error\(/.test(before)) return false;
  // Neither markup, addresses and policies, nor what is looked for on the page.
  return !/[<>#;=.[]\S|'none'/.test(words) && !/^(\w+, )+\w+$/.test(words) && (/[A-Za-z]{2,},? [A-Za-z]{2,}/.test(words) || /^[A-Z][a-z]{2,}/.test(words));
}

test("literals are found with what stands before them, and comments and patterns are none", () => {
  const script = 'const a = "one"; // "not"\n/* `nor` */ f(/["\\/]/, `two ${b ? "three" : `four`} x`);';
  assert.deepEqual(literals(script).map(({ text }) => text), ["one", "three", "four", "two \u0000 x"]);
  assert.ok(isSaid({ text: "Add a width", before: "h(_, {}, " }));
  assert.ok(isSaid({ text: "Add", before: "h(_, {}, " }));
  assert.ok(!isSaid({ text: "two measure", before: "h(_, { class: " }));
});

test("no script holds words of its own", async () => {
  const names = (await readdir(WWW, { recursive: true })).filter((name) => name.endsWith(".js") && !/^(words|pkg)[/\\]/.test(name) && !OF_THE_CORE.includes(name));
  assert.ok(names.length > 40, "the scripts are not found");
  const own = [];
  for (const name of names) {
    for (const one of literals(await readFile(join(WWW, name), "utf8"))) if (isSaid(one)) own.push(`${name}: ${one.text}`);
  }
  assert.deepEqual(own, [], "these belong into the catalogues, in words/");
});

test("no style sheet holds words", async () => {
  const names = (await readdir(WWW)).filter((name) => name.endsWith(".css"));
  assert.ok(names.length > 10, "the style sheets are not found");
  for (const name of names) assert.doesNotMatch(await readFile(join(WWW, name), "utf8"), /(?<!-)content:[^;"]*"[^"]*[A-Za-z]{2,}/, name);
});

test("the page's English heads its numbers as the written file does", async () => {
  const script = await readFile(join(WWW, "words", "en", "numbers.js"), "utf8");
  const { numbers } = await import(`data:text/javascript,${encodeURIComponent(script)}`);
  const themes = Object.values(numbers.numbers.themes);
  const kept = join(ROOT, "tests", "expected");
  const seen = new Set();
  for (const name of await readdir(kept)) {
    const text = await readFile(join(kept, name, "numbers.txt"), "utf8");
    const heads = [...text.matchAll(/^(.+)\n-+$/gm)].map(([, head]) => head);
    assert.deepEqual(heads, themes.filter((theme) => heads.includes(theme)), name);
    for (const head of heads) seen.add(head);
  }
  assert.deepEqual(themes.filter((theme) => !seen.has(theme)), [], "no file has these");
});

/** What a catalogue holds, by its path: how long a list is, and how much a function asks for, included. */
const shapes = (catalogue) => {
  const walk = (value, path) =>
    typeof value === "function" ? [`${path}(${value.length})`] : typeof value === "string" ? [path] : Object.entries(value).flatMap(([name, inner]) => walk(inner, `${path}.${name}`));
  return walk(catalogue, "").sort();
};

test("both catalogues hold the same entries, and only one is fetched", async () => {
  await withShop(async (running) => {
    for (const [code, other] of [["en", "de"], ["de", "en"]]) {
      const { page, context, problems } = await open(running, { stage: "Measure", setup: speaking(code) });
      const asked = await page.evaluate(() => performance.getEntriesByType("resource").map(({ name }) => name));
      assert.ok(asked.some((name) => name.endsWith(`/words/${code}.js`)), "its own catalogue is not fetched");
      assert.deepEqual(asked.filter((name) => name.includes(`/words/${other}`)), [], "the other one is fetched too");
      if (code === "en") {
        const held = await page.evaluate(`(async () => {
          const shapes = ${shapes};
          const [{ en }, { de }] = await Promise.all([import("./words/en.js"), import("./words/de.js")]);
          const parts = await Promise.all(["form", "measure", "size", "cut", "bench", "helper", "install", "numbers", "more", "page"].map(async (name) => (await import("./words/en/" + name + ".js"))[name]));
          return { en: shapes(en), de: shapes(de), parts: parts.flatMap(shapes).sort() };
        })()`);
        assert.deepEqual(held.de, held.en);
        assert.deepEqual(held.parts, held.en, "a part of the catalogue hides another's entry");
        assert.ok(held.en.length > 500);
      }
      assert.deepEqual(problems, []);
      await context.close();
    }
  });
});

/** Has the browser ask for a language. */
const speaking = (code) => `Object.defineProperty(navigator, "language", { get: () => "${code}" })`;

/** A catalogue in which every entry can be told from all else on the page. */
const MARKED = `
import { en } from "./en.js";
const mark = (said) =>
  typeof said === "string" ? said && "⟦" + said + "⟧"
  : typeof said === "function" ? (...given) => mark(said(...given))
  : Array.isArray(said) ? said.map(mark)
  : Object.fromEntries(Object.entries(said).map(([name, inner]) => [name, mark(inner)]));
export const de = mark(en);
`;

/** Names, titles and steps in a file or plan: they are the maker's or the core's. */
function names(value, key = "") {
  if (typeof value === "string") return /^(title|name|material_name|text)$/.test(key) ? [value.trim()] : [];
  return value && typeof value === "object" ? Object.entries(value).flatMap(([inner, held]) => names(held, inner)) : [];
}

/** Those of every example and of the plan that is shown. */
async function given(page) {
  const files = await scenarios();
  return [...files.flatMap(({ title, text }) => [title, ...names(JSON.parse(text))]), ...names(await outcome(page))];
}

/** In the page: what it says that is neither an entry, nor the core's, nor among the names given. */
function unmarked(data) {
  // A mark on a part, a figure with its unit, signs.
  const bare = (text) => text.replace(/\b(in|mm|cm|kg|lb|sq ft|min|DXF|CSV|JSON|SVG|TXT|PDF|Jointwise|English|Deutsch)\b|m²|\b[A-Z]{1,2}\b/g, "").replace(/[^\p{L}]/gu, "");
  const foreign = (text) => {
    const said = text.trim();
    return bare(said) !== "" && !data.some((one) => said === one || bare(said.replace(one, "")) === "");
  };
  const core = (element) => element.closest("[lang]")?.getAttribute("lang") === "en" || element.closest("noscript, script, style, .brand");
  let all = "";
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) if (!core(node.parentElement)) all += `\u0001${node.data}`;
  let deep = 0;
  let outside = "";
  for (const sign of all) {
    if (sign === "⟦") deep += 1;
    if (deep === 0) outside += sign;
    if (sign === "⟧") deep -= 1;
  }
  const found = outside.split("\u0001").filter(foreign);
  for (const element of document.body.querySelectorAll("[aria-label], [placeholder], [title], [alt]")) {
    if (core(element)) continue;
    for (const name of ["aria-label", "placeholder", "title", "alt"]) {
      const said = element.getAttribute(name) ?? "";
      if (!said.includes("⟦") && foreign(said)) found.push(`${name}: ${said}`);
    }
  }
  return [...new Set(found.map((said) => said.trim()))];
}

/** Scenarios that between them show every group of the forms, with the stages that are looked at. */
const SHOWN = {
  "mudroom-bins": ["measure", "size", "cut", "bench", "install", "numbers"],
  "washhouse-alcove": ["measure", "size", "install"],
  "pantry-doors": ["size", "numbers"],
  "sewing-drawers": ["size"],
  workbench: ["measure", "size", "bench", "install"],
};

for (const [scenario, stages] of Object.entries(SHOWN)) {
  test(`${scenario} shows no word that is in no catalogue`, async () => {
    await withShop(async (running) => {
      running.site.instead.set("words/de.js", MARKED);
      const { page, context, problems } = await open(running, { scenario, stage: "Measure", setup: speaking("de") });
      assert.match(await page.locator("h1").textContent(), /⟦/, "the marked catalogue is not in use");
      const data = await given(page);
      for (const stage of stages) {
        await page.evaluate((name) => (location.hash = name), stage);
        await page.locator(`[data-stage="${stage}"] .stage-${stage}`).waitFor();
        if (stage === "bench") await rest(page);
        assert.deepEqual(await page.evaluate(unmarked, data), [], stage);
      }
      assert.deepEqual(problems, []);
      await context.close();
    });
  });
}

test("what is added to the forms shows no word that is in no catalogue", async () => {
  await withShop(async (running) => {
    running.site.instead.set("words/de.js", MARKED);
    const { page, context } = await open(running, { stage: "Measure", setup: speaking("de") });
    const data = await given(page);
    for (const group of await page.locator("details.more > summary").all()) if (!(await group.evaluate((one) => one.parentElement.open))) await group.click();
    for (const label of ["Add a width", "Add a thing", "Add a height", "Add a depth", "Add an obstacle", "Add a passage", "A sheet measures different"]) {
      await page.getByRole("button", { name: label }).click();
    }
    for (const which of ["left", "across"]) await page.locator("#add-slope").selectOption(which);
    await page.getByRole("button", { name: "Two distances instead" }).first().click();
    await page.locator("#f-run-wall").fill("10'");
    await page.locator("#made-part").selectOption({ index: 1 });
    await page.waitForFunction(() => window.jointwise.outcome);
    assert.deepEqual(await page.evaluate(unmarked, data), []);
    await page.evaluate(() => (location.hash = "size"));
    await page.getByRole("button", { name: "Keep for comparing" }).click();
    await page.locator(".compare").waitFor();
    assert.deepEqual(await page.evaluate(unmarked, data), []);
    await context.close();
  });
});
