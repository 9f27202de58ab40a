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

test("the first step, and all that comes behind it, keep to their weight", async (t) => {
  const { step, behind } = await firstLoad();
  const module = (files) => files.find(({ file }) => file.endsWith(".wasm"));
  const [picture, planner] = [module(step), module(behind)];
  assert.ok(picture && planner && step.some(({ file }) => file === "app.js") && step.length > 30, "the first load was not found");
  const found = { picture, planner, first_step: whole(step), all: whole([...step, ...behind]) };
  for (const [name, { raw, brotli }] of Object.entries(found)) {
    t.diagnostic(`${name}: ${raw} raw, ${brotli} brotli`);
    within(name, found[name], budget[name]);
  }
});

// The kept plans are those that planning gives, which `expected_outputs` holds.
for (const { name } of await scenarios()) {
  test(`${name}: the search keeps to its states`, async () => {
    const plan = JSON.parse(await readFile(join(ROOT, "tests", "expected", name, "plan.json"), "utf8"));
    assert.ok(plan.proof.states <= budget.states[name], `${plan.proof.states} states, at most ${budget.states[name]}`);
  });
}
