// Reads the Bench stage as a maker sees it, and tells what the plan says it must show.

import assert from "node:assert/strict";

/** The steps that Bench shows; those done in the room are shown under Install. */
export const benchSteps = (plan) => plan.steps.filter((step) => step.stage === "bench");

/** The screws of a step by kind, gauge and length, with their counts, in no order of note. */
export function plannedScrews(plan, step) {
  const all = new Map(plan.joints.flatMap((joint) => joint.fasteners).map((screw) => [screw.id, screw]));
  const counts = {};
  for (const id of step.fasteners) {
    const screw = all.get(id);
    assert.ok(screw, `step ${step.n} drives ${id}, which is in no joint`);
    const key = `${screw.kind} #${screw.gauge} × ${screw.length}`;
    counts[key] = (counts[key] ?? 0) + 1;
  }
  return counts;
}

/** What Bench shows now. */
export async function shown(page) {
  return page.evaluate(() => {
    const tidy = (text) => (text ?? "").replace(/\s+/g, " ").trim();
    const visible = (element) => element.checkVisibility({ visibilityProperty: true });
    const list = document.querySelector('ol[aria-label="Steps"]');
    const items = [...(list?.children ?? [])];
    const isCurrent = (item) => item.matches('[aria-current="step"]') || item.querySelector('[aria-current="step"]') !== null;
    const screws = {};
    for (const item of document.querySelectorAll("[data-screws] li")) {
      if (!visible(item)) continue;
      const { kind, gauge, length, count } = item.dataset;
      const key = `${kind} #${gauge} × ${length}`;
      screws[key] = (screws[key] ?? 0) + Number(count);
      // The number that counts is the one a maker reads.
      const read = new RegExp(`× ?${count}(?![\\d/])`).test(tidy(item.textContent));
      if (!read) screws[`${key}, in words`] = tidy(item.textContent);
    }
    const sentences = [...document.querySelectorAll("[data-step-text]")].filter(visible);
    return {
      step: window.jointwise.step,
      sentence: sentences.map((element) => tidy(element.textContent)).join(" | "),
      entries: items.length,
      current: items.flatMap((item, i) => (isCurrent(item) ? [i + 1] : [])),
      marks: document.querySelectorAll('[aria-current="step"]').length,
      pictures: [...document.querySelectorAll('[role="img"]')]
        .filter((element) => visible(element) && element.closest("figure"))
        .map((element) => tidy(element.getAttribute("aria-label") ?? element.querySelector("title")?.textContent)),
      screws,
    };
  });
}

/**
 * The drawing that stands in for the picture, once it is the one of step `n` of the plan: the planner
 * makes it, which takes a moment.
 */
export async function still(page, n) {
  await page.waitForFunction((n) => {
    const image = document.querySelector("figure img.still");
    return image?.dataset.step === String(n) && image.complete && image.naturalWidth > 0;
  }, n);
  return page.locator("figure img.still");
}

/** Asserts that Bench shows its step `k`, counted from 1, as planned. */
export async function assertShows(page, plan, k) {
  const steps = benchSteps(plan);
  const step = steps[k - 1];
  const tidy = step.text.replace(/\s+/g, " ").trim();
  let found = await shown(page);
  if (found.step !== step.n) {
    await page.waitForFunction((n) => window.jointwise.step === n, step.n);
    found = await shown(page);
  }
  assert.deepEqual(found, {
    step: step.n,
    sentence: tidy,
    entries: steps.length,
    current: [k],
    marks: 1,
    pictures: [tidy],
    screws: plannedScrews(plan, step),
  });
}

/** Whether something is seen to move in a step: a part, a body, a screw, or the piece as a whole. */
export function moves(step) {
  return step.parts.length > 0 || step.joins != null || step.fasteners.length > 0 || step.action === "turn";
}

/** Opens the sheet of what is rare, and an entry of it. */
export async function more(page, entry) {
  await page.getByRole("button", { name: "More", exact: true }).click();
  await page.getByRole("button", { name: entry }).click();
}
