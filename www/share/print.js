// The build on paper: what to get, what to check, and each step with its drawing.
import { fractions, h } from "../dom.js";
import { print, printSides } from "../lengths.js";
import { countScrews, cutRows, fastenersById } from "../parts.js";
import { stepWords } from "../step-words.js";
import { w } from "../words.js";
import { code } from "./code.js";

/** @typedef {import("../types").Plan} Plan */

/** @param {Plan} plan */
function partList(plan) {
  return h(
    "table",
    {},
    h("caption", {}, w.paper.parts),
    h("thead", {}, h("tr", {}, ...w.paper.partHeads.map((head) => h("th", { scope: "col" }, head)))),
    h(
      "tbody",
      {},
      ...cutRows(plan.parts).map((row) =>
        h(
          "tr",
          {},
          h("th", { scope: "row" }, row.label),
          h("td", {}, `${row.count}`),
          h("td", {}, row.names.join(", ")),
          h("td", { class: "sized" }, row.part.kind === "panel" ? fractions(printSides(row.part, plan.unit)) : ""),
          h("td", {}, row.part.material_name),
        ),
      ),
    ),
  );
}

/** @param {Plan} plan */
function screwList(plan) {
  const all = countScrews([...fastenersById(plan).values()]);
  if (all.length === 0) return null;
  return h("p", {}, h("strong", {}, `${w.paper.screws} `), ...all.flatMap((one, i) => [i > 0 ? "; " : "", fractions(`${one.count} × #${one.gauge} × ${print(one.length, plan.unit)} ${one.kind}`)]));
}

/** @param {Plan} plan */
function diagonals(plan) {
  const rows = plan.steps.flatMap((step) => step.checks.filter((check) => check.kind === "diagonals").map((check) => ({ n: step.n, check })));
  if (rows.length === 0) return null;
  return h(
    "table",
    {},
    h("caption", {}, w.paper.diagonals),
    h("thead", {}, h("tr", {}, ...w.paper.diagonalHeads.map((head) => h("th", { scope: "col" }, head)))),
    h("tbody", {}, ...rows.map(({ n, check }) => h("tr", {}, h("th", { scope: "row" }, `${n}`), h("td", { class: "sized" }, fractions(print(check.expected[0] ?? 0, plan.unit))), h("td", { class: "blank" }), h("td", { class: "blank" })))),
  );
}

/** @param {Plan} plan */
function cautions(plan) {
  const found = plan.findings.filter((finding) => finding.severity !== "note");
  return h("div", { class: "paper-cautions" }, h("h2", {}, w.paper.cautions), h("ul", {}, h("li", {}, w.paper.usual), ...found.map((finding) => h("li", { lang: "en" }, fractions(`${finding.message} ${finding.hint}`)))));
}

/**
 * Prints the build: what to get, what to check, and the steps.
 * @param {Plan} plan
 * @param {(kind: string) => Promise<string | undefined>} exportFile
 * @param {string} link that opens the build, empty when there is none
 */
export async function printBuild(plan, exportFile, link) {
  /** @type {string[]} */
  const made = [];
  const drawing = async (/** @type {string} */ kind) => {
    const svg = await exportFile(kind);
    if (!svg) return null;
    const src = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
    made.push(src);
    const image = h("img", { src, alt: "" });
    await image.decode().catch(() => {});
    return image;
  };
  /** @param {Plan} of @param {string} kind of its drawings */
  const stepsOf = async (of, kind) => {
    const all = [];
    for (const step of of.steps) {
      const picture = h("div", { class: "paper-picture" }, await drawing(`${kind}:${step.n}`));
      all.push(h("section", { class: "paper-step", lang: "en" }, h("p", { class: "paper-n" }, `${step.n}`), picture, stepWords(of, step), h("p", { class: "paper-done" }, w.paper.done)));
    }
    return all;
  };
  const square = link === "" ? null : code(link);
  const steps = await stepsOf(plan, "step-svg");
  const room = plan.install ? [h("h2", { class: "paper-room" }, w.stages.install), ...(await stepsOf(plan.install, "room-svg"))] : [];
  const pages = [
    h("header", { class: "paper-head" }, h("div", {}, h("h1", {}, plan.title), h("p", {}, w.paper.count(plan.parts.length, plan.steps.length))), square ? h("figure", {}, square, h("figcaption", {}, w.paper.scan)) : null),
    partList(plan),
    screwList(plan),
    diagonals(plan),
    cautions(plan),
    ...steps,
    ...room,
  ];
  printOut(pages, made);
}

/**
 * Puts pages into the page, prints them, and takes them away.
 * @param {(Node | null)[]} pages
 * @param {string[]} made addresses of their pictures, let go of afterwards
 */
export function printOut(pages, made) {
  const sheet = h("div", { class: "paper", id: "paper" }, ...pages);
  for (const details of sheet.querySelectorAll("details")) details.remove();
  document.getElementById("paper")?.remove();
  document.body.append(sheet);
  document.documentElement.dataset.paper = "";
  const clear = () => {
    sheet.remove();
    delete document.documentElement.dataset.paper;
    for (const src of made) URL.revokeObjectURL(src);
  };
  addEventListener("afterprint", clear, { once: true });
  window.print();
}
