// What the core says of fields, in the words of the page: no name of the file's stays where there is another.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { test } from "node:test";
import { load } from "./module.mjs";
import { SITE, scenarios } from "./site.mjs";

const script = await readFile(join(SITE, "field-words.js"), "utf8");
const { inWords } = await import(`data:text/javascript,${encodeURIComponent(script)}`);

for (const [written, said] of [
  ["`run.wall` is 4.", "The wall is 4."],
  ["`space.walls.left.over` is missing.", "The level's length at the left wall is missing."],
  ["`space.widths[1].width` is \"x\".", "Width 2 is \"x\"."],
  ["Make `contents[0].lift` less.", "Make the lift of thing 1 less."],
  ["Read `plan.json`, or leave `at` out.", "Read `plan.json`, or leave “at” out."],
]) {
  test(written, () => assert.equal(inWords(written), said));
}

test("beside its own box a field is this one", () => {
  assert.equal(inWords("`run.wall` is 4, but `run.count` is 2.", "run.wall"), "This is 4, but the number of bought units is 2.");
});

test("what the core says of the examples names no place in the file", async () => {
  const { Session } = await load();
  const session = new Session();
  let named = 0;
  for (const { name, text } of await scenarios()) {
    const { findings, plan } = JSON.parse(session.build(text));
    const reasons = plan?.cutting?.shopping.map(({ why }) => why ?? "") ?? [];
    for (const written of [...findings.map(({ message, hint }) => `${message} ${hint}`), ...reasons]) {
      if (written.includes("`")) named += 1;
      assert.doesNotMatch(inWords(written), /`|\b[a-z]+\.[a-z]+\b|\w_\w/, name);
    }
  }
  assert.ok(named > 0, "nothing to put into words");
});
