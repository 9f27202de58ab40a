// The page's planner without a page: its module loaded into node, as built.

import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { SITE } from "./site.mjs";

/** A fresh instance of the module, with its exports. */
export async function load() {
  // Copied beside a file that calls it a module, which the site itself need not hold; a fresh
  // address each time, because a module that panicked may not be used again.
  const folder = await mkdtemp(join(tmpdir(), "page-module-"));
  try {
    await cp(join(SITE, "pkg"), folder, { recursive: true });
    await writeFile(join(folder, "package.json"), '{ "type": "module" }');
    const module = await import(pathToFileURL(join(folder, "jointwise_planner.js")).href);
    const bytes = await readFile(join(folder, "jointwise_planner_bg.wasm"));
    module.initSync({ module: bytes });
    return module;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
