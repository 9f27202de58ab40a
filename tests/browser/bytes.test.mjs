// The same scenario gives the same bytes: from the command on this machine, and from the module
// that the page runs.

import assert from "node:assert/strict";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { load } from "./module.mjs";
import { build } from "./native.mjs";
import { scenarios } from "./site.mjs";

/** Runs the command and returns the files it wrote, by name. */
async function native(file, names) {
  const folder = await mkdtemp(join(tmpdir(), "native-plan-"));
  try {
    build([`scenarios/${file}`], folder);
    return await Promise.all(names.map((name) => readFile(join(folder, name))));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

const CUTTING = "cutting/";
const NAMES = ["plan.json", "parts.csv", "steps.txt", ...["cut-parts.csv", "cuts.csv", "labels.html", "sheet-1.svg", "sheet-1.dxf"].map((name) => CUTTING + name)];

for (const { file, text } of await scenarios()) {
  test(`${file}: native and module write the same bytes`, async () => {
    const { Session } = await load();
    const session = new Session();
    const outcome = JSON.parse(session.build(text));
    assert.ok(outcome.plan, `no plan: ${JSON.stringify(outcome.findings, null, 1)}`);
    assert.ok(outcome.plan.steps.length > 0, "the plan has no steps");
    const files = await native(file, NAMES);
    NAMES.forEach((name, i) => {
      const exported = session.export(name.replace(CUTTING, ""));
      assert.notEqual(exported, undefined, `the module does not export ${name}`);
      assert.ok(files[i].equals(Buffer.from(exported, "utf8")), `${name} differs`);
    });
    // What the page shows is what the file says.
    assert.deepEqual(JSON.parse(files[0].toString("utf8")), outcome.plan);
  });

  test(`${file}: building twice in one session changes nothing`, async () => {
    const { Session } = await load();
    const session = new Session();
    const first = session.build(text);
    session.build("{}");
    assert.equal(session.build(text), first);
  });
}
