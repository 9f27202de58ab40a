// The page is fetched over a shop's poor network, so its weight is a decision and not an accident.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { test } from "node:test";
import { brotliCompressSync, constants } from "node:zlib";
import { SITE } from "./site.mjs";

/** Of the module, in bytes: as it lies in the folder, and as a good host sends it. */
const MOST = 2_180_000;
const MOST_SENT = 680_000;

test("the module keeps to its weight", async (t) => {
  const bytes = await readFile(join(SITE, "pkg", "jointwise_web_bg.wasm"));
  const sent = brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length } }).length;
  t.diagnostic(`${bytes.length} bytes, ${sent} sent`);
  assert.ok(bytes.length <= MOST, `${bytes.length} bytes, at most ${MOST}`);
  assert.ok(sent <= MOST_SENT, `${sent} bytes sent, at most ${MOST_SENT}`);
});
