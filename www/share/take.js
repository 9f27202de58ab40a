// Take away: print, one file, model, scenario file, link and code; and bring in: a file.
import { download, h } from "../dom.js";
import { glyph } from "../glyphs.js";
import { w } from "../words.js";
import { code } from "./code.js";
import { canPack, linkTo } from "./link.js";
import { oneFile } from "./one-file.js";
import { printBuild } from "./print.js";

/** @typedef {import("../types").App} App */

/** A file's name from the piece's.
 * @param {App} app */
function stem(app) {
  const title = app.state().plan?.title ?? "";
  return title.toLowerCase().replaceAll(/[^\p{L}\p{N}]+/gu, "-").replaceAll(/^-+|-+$/g, "").slice(0, 60) || "build";
}

/** @param {App} app */
const scenarioText = (app) => JSON.stringify(app.state().scenario, null, 2) + "\n";

/** @param {App} app */
export function saveScenario(app) {
  download(`${stem(app)}.json`, scenarioText(app), "application/json");
}

/** Chooses a file of one's own.
 * @param {App} app
 * @param {() => void} then */
export function openScenario(app, then) {
  const input = h("input", { type: "file", accept: ".json,application/json" });
  input.addEventListener("change", async () => {
    const [file] = input.files ?? [];
    if (!file) return;
    then();
    await app.openFile(file);
  });
  input.click();
}

/**
 * Link for where the maker is; empty when this browser cannot pack it.
 * @param {App} app
 * @returns {Promise<string>}
 */
async function linkHere(app) {
  // A page from a stick has no address that another device could open.
  if (!canPack() || !/^https?:$/.test(location.protocol)) return "";
  return linkTo(JSON.stringify(app.state().scenario), app.state().step);
}

/** @param {App} app */
export async function printHere(app) {
  const { plan } = app.state();
  if (plan) await printBuild(plan, app.exportFile, await linkHere(app));
}

/** @param {App} app */
export async function saveModel(app) {
  const bytes = await app.exportModel();
  if (bytes) download(`${stem(app)}.glb`, bytes, "model/gltf-binary");
}

/** @param {App} app */
export async function saveOneFile(app) {
  const { step, plan } = app.state();
  const text = await oneFile(JSON.stringify(app.state().scenario), step, plan?.title ?? "Jointwise");
  download(`${stem(app)}.html`, text, "text/html");
}

/**
 * The page of the sheet that sends the build to another device.
 * @param {App} app
 */
export function sending(app) {
  const root = h("div", { class: "sending" }, h("p", {}, w.share.intro));
  void linkHere(app).then((link) => {
    if (link === "") {
      root.append(h("p", {}, w.share.noLink), h("button", { type: "button", class: "strong", onclick: () => saveScenario(app) }, w.share.file));
      return;
    }
    const square = code(link);
    const said = h("span", { role: "status" });
    const field = h("input", { type: "text", readonly: true, value: link, "aria-label": w.share.link, onfocus: () => field.select() });
    const copy = async () => {
      try {
        await navigator.clipboard.writeText(link);
        said.textContent = w.share.copied;
      } catch {
        field.focus();
        said.textContent = w.share.copyYourself;
      }
    };
    const share = async () => {
      try {
        await navigator.share({ title: app.state().plan?.title ?? "", url: link });
      } catch {
        // Called off.
      }
    };
    root.append(
      square ? h("figure", {}, square, h("figcaption", {}, w.share.scan)) : h("p", { class: "note", "data-kind": "caution" }, glyph("caution"), h("span", {}, w.share.tooLong)),
      h("div", { class: "buttons" }, h("button", { type: "button", class: "strong", onclick: copy }, w.share.copy), "share" in navigator ? h("button", { type: "button", onclick: share }, w.share.share) : null, square ? null : h("button", { type: "button", onclick: () => saveScenario(app) }, w.share.file)),
      said,
      h("div", { class: "field" }, field),
      h("p", { class: "quiet" }, w.share.privacy),
    );
  });
  return root;
}
