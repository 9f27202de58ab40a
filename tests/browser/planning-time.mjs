// How long the page's module takes to plan: `node planning-time.mjs FOLDER` prints the rows of a table.
//
// The folder is one that `cargo bench -p jointwise-tests --bench planning_time -- --out FOLDER` has
// written: scenario files, and what planning each took natively. A fresh module for each file, because
// its memory only ever grows; planned again until a second has gone, and the shortest time counts. Time
// of the processor, so that a busy machine measures the same.

import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { load } from "./module.mjs";

const folder = process.argv[2];
if (!folder) {
  console.error("which folder? node planning-time.mjs FOLDER");
  process.exit(2);
}

const rows = JSON.parse(await readFile(join(folder, "native.json"), "utf8"));
console.log("| parts | joints | states | optimal | native ms | wasm ms | native peak MB | wasm memory MB |");
console.log("|---|---|---|---|---|---|---|---|");
for (const row of rows) {
  const text = await readFile(join(folder, row.file), "utf8");
  const module = await load();
  const session = new module.Session();
  let best = Infinity;
  let spent = 0;
  let plan = null;
  while (spent < 1000) {
    const start = process.cpuUsage();
    const answer = session.build(text);
    const { user, system } = process.cpuUsage(start);
    const took = (user + system) / 1000;
    spent += took;
    best = Math.min(best, took);
    plan = JSON.parse(answer).plan;
  }
  // The same search on both sides, or the two times say nothing of each other.
  const states = plan ? plan.proof.states : null;
  if (states !== row.states) throw new Error(`${row.file}: ${states} states here, ${row.states} natively`);
  // Initialised already: this hands back the exports.
  const { memory } = module.initSync({ module: undefined });
  const cells = [
    row.parts,
    row.joints,
    row.states ?? "–",
    row.optimal,
    row.native_ms.toFixed(1),
    best.toFixed(1),
    row.peak_mb.toFixed(1),
    (memory.buffer.byteLength / 2 ** 20).toFixed(1),
  ];
  console.log(`| ${cells.join(" | ")} |`);
}
