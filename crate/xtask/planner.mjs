// The planner of a built site without a page: its module loaded into node, as built.

import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

/** A fresh instance of the module, with its exports.
 * @param {string} site the built site's folder */
export async function load(site) {
  // Copied beside a file that calls it a module, which the site itself need not hold; a fresh
  // address each time, because a module that panicked may not be used again.
  const folder = await mkdtemp(join(tmpdir(), "page-module-"));
  try {
    await cp(join(site, "pkg"), folder, { recursive: true });
    await writeFile(join(folder, "package.json"), '{ "type": "module" }');
    const module = await import(pathToFileURL(join(folder, "jointwise_planner.js")).href);
    module.initSync({ module: await readFile(join(folder, "jointwise_planner_bg.wasm")) });
    return module;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
