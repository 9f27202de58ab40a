// Plans the examples of a built site with the site's own planner: `node planned.mjs SITE`. The page shows
// such a plan at once, and fetches the planner behind it. Each file holds the text that was planned as well,
// so that the page can tell whether the plan is of what it shows.
import { mkdir, readFile, readdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { load } from "./planner.mjs";

const [, , site] = process.argv;
if (!site) throw new Error("the site's folder is missing");

const planner = await load(site);
const from = join(site, "scenarios");
const to = join(from, "planned");
await mkdir(to, { recursive: true });
for (const file of (await readdir(from)).filter((name) => name.endsWith(".json")).sort()) {
  // As the page writes it before it has it planned.
  const scenario = JSON.stringify(JSON.parse(await readFile(join(from, file), "utf8")));
  const outcome = new planner.Session().build(scenario);
  await writeFile(join(to, file), `{"scenario":${JSON.stringify(scenario)},"outcome":${outcome}}\n`);
}
