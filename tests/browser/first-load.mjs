// What the first visit transfers before the first plan is there, found from the built site alone:
// the page, what its head names, its scripts with all they import, the planner and the module.

import { readFile } from "node:fs/promises";
import { dirname, join, posix } from "node:path";
import { brotliCompressSync, constants } from "node:zlib";
import { SITE } from "./site.mjs";

/** Asked for by addresses that are worked out: the planner's worker, the catalogue of the language in use, the module and its bindings. */
const COMPUTED = ["planner-worker.js", "words/en.js", "pkg/jointwise_web.js", "pkg/jointwise_web_bg.wasm", "scenarios/index.json"];

/** What one file names: in the page by `href` and `src`, in a script by `import` and `export … from`. */
function named(file, text) {
  const patterns = file.endsWith(".html") ? [/<(?:link|script)[^>]*(?:href|src)="([^"]+)"/g] : [/^\s*(?:import|export|\})\b[^;"]*?"(\.[^"]+)"/gm];
  const found = patterns.flatMap((pattern) => [...text.matchAll(pattern)].map((match) => match[1]));
  return found.filter((address) => address.startsWith(".")).map((address) => posix.join(dirname(file), address));
}

/** How many bytes a good host sends of a text or module; what is packed already goes as it is. */
function sent(file, bytes) {
  if (/\.(woff2|png)$/.test(file)) return bytes.length;
  return brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length } }).length;
}

/** Every file with its bytes as it lies in the folder, `raw`, and as it is sent, `brotli`. */
export async function firstLoad() {
  const seen = new Map();
  const left = ["index.html", ...COMPUTED];
  for (let file = left.pop(); file !== undefined; file = left.pop()) {
    if (seen.has(file)) continue;
    const bytes = await readFile(join(SITE, file));
    seen.set(file, { file, raw: bytes.length, brotli: sent(file, bytes) });
    if (/\.(html|js)$/.test(file)) left.push(...named(file, bytes.toString("utf8")));
  }
  return [...seen.values()].sort((a, b) => b.raw - a.raw);
}

/** The sum of some files. */
export const whole = (files) => ({
  raw: files.reduce((sum, file) => sum + file.raw, 0),
  brotli: files.reduce((sum, file) => sum + file.brotli, 0),
});
