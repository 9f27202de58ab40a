// Not a test: writes a picture of each stage, in both sizes, light and dark, and of each step on
// Bench, for looking at.
//
//     node shots.mjs FOLDER [SCENARIO…]

import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { benchSteps } from "./bench.mjs";
import { SIZES, STAGES, go, launch, open, outcome, rest } from "./harness.mjs";
import { scenarios } from "./site.mjs";

const [folder, ...named] = process.argv.slice(2);
if (!folder) {
  console.error("usage: node shots.mjs FOLDER [SCENARIO…]");
  process.exit(2);
}
await mkdir(folder, { recursive: true });
const wanted = (await scenarios()).filter(({ name }) => named.length === 0 || named.includes(name));
const running = await launch();
try {
  for (const { name } of wanted) {
    for (const size of SIZES) {
      for (const dark of [false, true]) {
        const look = `${name}-${size.width}-${dark ? "dark" : "light"}`;
        const { page, context, problems } = await open(running, { ...size, dark, scenario: name, stage: "Measure", pictures: true });
        const shot = (what, fullPage = false) => page.screenshot({ path: join(folder, `${look}-${what}.png`), fullPage });
        for (const stage of STAGES.filter((stage) => stage !== "Bench")) {
          await go(page, stage);
          await shot(stage.toLowerCase(), true);
        }
        await go(page, "Bench");
        const { plan } = await outcome(page);
        // In the dark one step shows what there is to see.
        const steps = plan ? benchSteps(plan).slice(0, dark ? 1 : undefined) : [];
        for (const [i] of steps.entries()) {
          if (i > 0) await page.getByRole("button", { name: "Next", exact: true }).click();
          await rest(page);
          await shot(`bench-${String(i + 1).padStart(2, "0")}`);
        }
        for (const problem of problems) console.log(`${look}: ${problem}`);
        await context.close();
      }
    }
  }
} finally {
  await running.close();
}
