// What the first visit transfers, found from the built site alone: until the first step of an example is drawn,
// and all that follows behind it.

import { readFile } from "node:fs/promises";
import { dirname, join, posix } from "node:path";
import { brotliCompressSync, constants } from "node:zlib";
import { EXAMPLE, SITE } from "./site.mjs";

/** Asked for by addresses that are worked out: the stage, the catalogue of the language in use, the picture and its
 * bindings, the example and its plan. */
const FIRST = ["stages/bench.js", "words/en.js", "pkg/jointwise_picture.js", "pkg/jointwise_picture_bg.wasm", "scenarios/index.json", `scenarios/planned/${EXAMPLE}.json`];

/** Behind the first step: the planner, its worker, the other stages. */
const BEHIND = ["planner-worker.js", "pkg/jointwise_planner.js", "pkg/jointwise_planner_bg.wasm", ...["measure", "size", "cut", "install", "numbers"].map((name) => `stages/${name}.js`)];

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

/** Every file that some files lead to, with its bytes as it lies in the folder, `raw`, and as it is sent, `brotli`. */
async function reached(starts, seen) {
  const found = new Map();
  const left = [...starts];
  for (let file = left.pop(); file !== undefined; file = left.pop()) {
    if (found.has(file) || seen.has(file)) continue;
    const bytes = await readFile(join(SITE, file));
    found.set(file, { file, raw: bytes.length, brotli: sent(file, bytes) });
    if (/\.(html|js)$/.test(file)) left.push(...named(file, bytes.toString("utf8")));
  }
  return found;
}

/** The files of the first step, and those behind it; the heaviest first. */
export async function firstLoad() {
  const step = await reached(["index.html", ...FIRST], new Map());
  const behind = await reached(BEHIND, step);
  const sorted = (files) => [...files.values()].sort((a, b) => b.raw - a.raw);
  return { step: sorted(step), behind: sorted(behind) };
}

/** The sum of some files. */
export const whole = (files) => ({
  raw: files.reduce((sum, file) => sum + file.raw, 0),
  brotli: files.reduce((sum, file) => sum + file.brotli, 0),
});
