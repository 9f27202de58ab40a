// Not a test: writes the picture of the README from the page as built.
//
//     node readme-picture.mjs

import { join } from "node:path";
import { benchSteps } from "./bench.mjs";
import { launch, open, outcome, rest } from "./harness.mjs";
import { ROOT } from "./site.mjs";

const running = await launch();
try {
  const { page, problems } = await open(running, { scenario: "mudroom-bins", stage: "Bench", pictures: true });
  const steps = benchSteps((await outcome(page)).plan);
  // One that shows what a step can have: a loose part as spacer, and screws to drive.
  const at = steps.findIndex((step) => step.spacer && step.fasteners.length > 3);
  if (at < 0) throw new Error("no step has a spacer and screws");
  for (let n = 0; n < at; n += 1) await page.getByRole("button", { name: "Next", exact: true }).click();
  await rest(page);
  await page.screenshot({ path: join(ROOT, "docs", "bench.png") });
  if (problems.length > 0) throw new Error(problems.join("\n"));
} finally {
  await running.close();
}
