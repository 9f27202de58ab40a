// Writes the model of every example with what is said of its weight: `node models.mjs FOLDER`, for weigh.py.
import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { load } from "../browser/module.mjs";
import { scenarios } from "../browser/site.mjs";

const [, , folder] = process.argv;
if (!folder) throw new Error("the folder to write to is missing");
await mkdir(folder, { recursive: true });
const planner = await load();
for (const { name, text } of await scenarios()) {
  const session = new planner.Session();
  const { plan, checks } = JSON.parse(session.build(text));
  const carry = checks.find(({ rule }) => rule === "carry");
  if (!plan || !carry) throw new Error(`${name}: no plan, or nothing said of its weight`);
  const densities = Object.fromEntries((JSON.parse(text).shop?.materials ?? []).map(({ name, density }) => [name, density]));
  await writeFile(join(folder, `${name}.glb`), session.model());
  await writeFile(join(folder, `${name}.json`), JSON.stringify({ mass: carry.result, centre: carry.inputs[0].value, densities }));
}
