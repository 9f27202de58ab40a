// The page with everything in it, as one file: it opens from a stick, without network or server.
import { inside } from "../inside.js";

/** @type {Record<string, string>} */
const TYPES = { js: "text/javascript", css: "text/css", wasm: "application/wasm", svg: "image/svg+xml", woff2: "font/woff2" };

/** What the saved page has no use for. */
const LEFT_OUT = /^(version$|scenarios\/|icons\/|fonts\/.*\.txt$|manifest\.webmanifest$|\.\/$|sw)/;

/** @param {ArrayBuffer} bytes */
async function base64(bytes) {
  const reader = new FileReader();
  const text = await new Promise((done, failed) => {
    reader.onload = () => done(String(reader.result));
    reader.onerror = () => failed(reader.error);
    reader.readAsDataURL(new Blob([bytes]));
  });
  return text.slice(text.indexOf(",") + 1);
}

/** @param {string} name */
async function fetched(name) {
  const answer = await fetch(new URL(`./../${name}`, import.meta.url));
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  return answer;
}

/** The files of the site, as the saved page holds them. */
async function collect() {
  const list = await (await fetched("sw-files.js")).text();
  const names = [...list.matchAll(/"([^"\s]+)": ?"[0-9a-f]+"/g)].flatMap(([, name]) => (name === undefined || LEFT_OUT.test(name) ? [] : [name]));
  /** @type {Record<string, { type: string, text?: string, base64?: string }>} */
  const files = {};
  await Promise.all(
    names.map(async (name) => {
      const type = TYPES[name.slice(name.lastIndexOf(".") + 1)] ?? "text/plain";
      const answer = await fetched(name);
      files[name] = /^(text|image\/svg)/.test(type) ? { type, text: await answer.text() } : { type, base64: await base64(await answer.arrayBuffer()) };
    }),
  );
  return files;
}

/**
 * @param {string} text
 * @returns {string} that stands in a script element and ends it nowhere
 */
const quiet = (text) => text.replaceAll("<", "\\u003c");

/** @param {string} text that stands between tags */
const escaped = (text) => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;");

/**
 * @param {string} scenario
 * @param {number} step
 * @param {string} title
 * @returns {Promise<string>} the page
 */
export async function oneFile(scenario, step, title) {
  const files = /** @type {Awaited<ReturnType<typeof collect>>} */ (inside ? inside.files : await collect());
  // Only what this page was saved with runs in it.
  const nonce = [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  const font = files["fonts/atkinson-hyperlegible-next-latin-wght-normal.woff2"];
  const sheets = [...document.querySelectorAll("link[rel=stylesheet]")].map((link) => link.getAttribute("href")?.replace(/^\.\//, "") ?? "");
  // Saved once more, the page has them in one already.
  const written = document.querySelector("style")?.textContent ?? "";
  const style = (inside ? written : sheets.map((name) => files[name]?.text ?? "").join("\n")).replaceAll(/url\("\.\/fonts\/[^"]+\.woff2"\)/g, () => `url("data:font/woff2;base64,${font?.base64 ?? ""}")`);
  const policy = `default-src 'none'; script-src 'nonce-${nonce}' blob: 'wasm-unsafe-eval'; worker-src blob:; style-src 'nonce-${nonce}'; font-src data:; img-src data: blob:; base-uri 'none'; form-action 'none'`;

  const links = [...document.querySelectorAll("nav a")].map((link) => `<a href="${link.getAttribute("href")}">${escaped(link.textContent ?? "")}</a>`).join("");
  return [
    "<!doctype html>",
    `<html lang="${document.documentElement.lang === "de" ? "de" : "en"}">`,
    "<head>",
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="color-scheme" content="light dark">',
    `<title>${escaped(title)}</title>`,
    `<link rel="icon" type="image/svg+xml" href="data:image/svg+xml,${encodeURIComponent(files["icon.svg"]?.text ?? "")}">`,
    `<style nonce="${nonce}">${style.replaceAll("</", "<\\/")}</style>`,
    "</head>",
    "<body>",
    '<a class="skip" href="#main">To the stage</a>',
    `<header><span class="brand">Jointwise</span><nav aria-label="Stages">${links}</nav>`,
    '<a class="to-numbers" href="#numbers"><span class="long">Numbers</span><span class="short" aria-hidden="true">№</span></a></header>',
    `<p id="notice" role="status"></p>`,
    `<div id="newer" class="newer" role="status" hidden></div>`,
    `<p id="unkept" class="stale" role="status" hidden></p>`,
    `<p id="stale" class="stale" role="status" hidden></p>`,
    `<main id="main" tabindex="-1"></main>`,
    `<p id="spoken" class="vh" role="status" aria-live="polite"></p>`,
    `<script type="application/json" id="inside">${quiet(JSON.stringify({ files, scenario, step }))}</script>`,
    `<script nonce="${nonce}">${files["share/boot.js"]?.text ?? ""}</script>`,
    "</body>",
    "</html>",
    "",
  ].join("\n");
}
