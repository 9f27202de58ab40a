// What the page weighs and how far the search goes are decisions and not accidents: neither may grow
// past tests/budget.json. Times are measured by `cargo xtask measure` and judged by no test.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { test } from "node:test";
import { firstLoad, whole } from "./first-load.mjs";
import { ROOT, scenarios } from "./site.mjs";

const budget = JSON.parse(await readFile(join(ROOT, "tests", "budget.json"), "utf8"));

function within(name, found, most) {
  for (const kind of ["raw", "brotli"]) {
    assert.ok(found[kind] <= most[kind], `${name}: ${found[kind]} bytes ${kind}, at most ${most[kind]}`);
  }
}

test("the first load keeps to its weight", async (t) => {
  const files = await firstLoad();
  const module = files.find(({ file }) => file.endsWith(".wasm"));
  assert.ok(module && files.some(({ file }) => file === "app.js") && files.length > 30, "the first load was not found");
  const all = whole(files);
  t.diagnostic(`module ${module.raw} raw, ${module.brotli} brotli; ${files.length} files ${all.raw} raw, ${all.brotli} brotli`);
  within("the module", module, budget.module);
  within("the first load", all, budget.first_load);
});

// The kept plans are those that planning gives, which `expected_outputs` holds.
for (const { name } of await scenarios()) {
  test(`${name}: the search keeps to its states`, async () => {
    const plan = JSON.parse(await readFile(join(ROOT, "tests", "expected", name, "plan.json"), "utf8"));
    assert.ok(plan.proof.states <= budget.states[name], `${plan.proof.states} states, at most ${budget.states[name]}`);
  });
}
