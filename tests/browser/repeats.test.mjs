// What is built once more, and what is said joint by joint, asked of the kept plans without a browser.

import assert from "node:assert/strict";
import { readFile, readdir } from "node:fs/promises";
import { join } from "node:path";
import { test } from "node:test";
import { HARD, difficulty, driven } from "../../www/difficulty.js";
import { repeats } from "../../www/repeats.js";
import { ROOT } from "./site.mjs";

/** The plans that are kept beside the tests. */
async function plans() {
  const folder = join(ROOT, "tests/expected");
  const names = await readdir(folder);
  return Promise.all(names.map(async (name) => ({ name, plan: JSON.parse(await readFile(join(folder, name, "plan.json"), "utf8")) })));
}

test("a step that is said to be like an earlier one reads like it, with other names", async () => {
  let found = 0;
  for (const { name, plan } of await plans()) {
    const again = repeats(plan, plan.steps);
    const named = (id) => plan.parts.find((part) => part.id === id)?.name ?? id;
    const bodyNamed = (id) => plan.bodies.find((body) => body.id === id)?.name ?? id;
    for (const [n, { same, all }] of again) {
      const step = plan.steps.find((one) => one.n === n);
      const own = plan.steps.filter((one) => one.body === step.body);
      assert.equal(own.length, all.length, `${name}, step ${n}`);
      const pairs = own.flatMap((one, i) => one.parts.map((id, k) => [named(id), named(all[i].parts[k])]));
      pairs.push([bodyNamed(step.body), bodyNamed(same.body)]);
      // The longest first, so that no name is taken for a part of another.
      pairs.sort((a, b) => b[0].length - a[0].length);
      const told = pairs.reduce((text, [mine], i) => text.replaceAll(mine, `<${i}>`), step.text);
      const read = pairs.reduce((text, [, theirs], i) => text.replaceAll(`<${i}>`, theirs), told);
      assert.equal(read, same.text, `${name}, step ${n}`);
      assert.ok(same.n < n);
      found += 1;
    }
  }
  assert.ok(found > 20, `${found} steps`);
});

test("one drawer more or less of another size is no repeat", async () => {
  const { plan } = (await plans()).find(({ name }) => name === "window-bench");
  const whole = repeats(plan, plan.steps);
  assert.ok(whole.size > 0);
  const [[n]] = whole;
  const step = plan.steps.find((one) => one.n === n);
  const other = structuredClone(plan);
  for (const part of other.parts) if (step.parts.includes(part.id)) part.length += 1000;
  assert.equal(repeats(other, other.steps).size, 0);
});

test("few steps are hard, and joint by joint their screws are all there", async () => {
  let hard = 0;
  let steps = 0;
  for (const { plan } of await plans()) {
    for (const step of plan.steps) {
      steps += 1;
      const joints = driven(plan, step);
      assert.equal(joints.reduce((sum, joint) => sum + joint.screws, 0), step.fasteners.length);
      if (difficulty(plan, step) > HARD) hard += 1;
    }
  }
  assert.ok(hard > 0 && hard * 20 < steps, `${hard} of ${steps}`);
});
