// Bad input through the page's module: each gives a finding that says what to do, and the same
// module goes on working afterwards.

import assert from "node:assert/strict";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { before, test } from "node:test";
import { load } from "./module.mjs";
import { ROOT, scenarios } from "./site.mjs";

const folder = join(ROOT, "tests", "broken");
const files = (await readdir(folder).catch(() => [])).filter((name) => name.endsWith(".json")).sort();

/** What would be too long to keep as a file. */
const made = [
  ["ten megabytes of brackets", "[".repeat(10_000_000)],
  ["ten megabytes of braces with keys", '{"space":'.repeat(1_200_000)],
  ["a number of a million digits", `{"format":"jointwise-scenario/1","title":${"9".repeat(1_000_000)}}`],
  ["a half of a pair of code units", '{"format":"\ud800"}'],
  ["nothing", ""],
];

let session;
let good;
before(async () => {
  session = new (await load()).Session();
  [good] = await scenarios();
});

test("there are broken files to try", () => {
  assert.ok(files.length >= 20, `${files.length} files in tests/broken`);
});

for (const name of files) {
  test(name, async () => refuse(await readFile(join(folder, name), "utf8")));
}
for (const [name, text] of made) {
  test(name, () => refuse(text));
}

test("a good scenario after all the broken ones", () => {
  const outcome = JSON.parse(session.build(good.text));
  assert.ok(outcome.plan, JSON.stringify(outcome.findings));
});

function refuse(text) {
  // A panic would throw here.
  const outcome = JSON.parse(session.build(text));
  const serious = outcome.findings.filter(({ severity }) => severity === "stop" || severity === "fix");
  assert.ok(serious.length > 0, `accepted: ${JSON.stringify(outcome.findings)}`);
  for (const finding of serious) {
    for (const field of ["code", "message", "hint"]) {
      assert.ok(finding[field]?.length > 0, `a finding without ${field}: ${JSON.stringify(finding)}`);
    }
    assert.equal(typeof finding.where, "string");
    assert.ok(finding.message.length < 2000, "a message that nobody would read");
  }
}
