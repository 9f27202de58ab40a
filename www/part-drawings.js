// The parts on Size: each opens its drawing, with what is cut into it in words, to be looked at and printed.
import { sheet } from "./bench/sheet.js";
import { fractions, h, keep } from "./dom.js";
import { glyph } from "./glyphs.js";
import { printSides } from "./lengths.js";
import { asCut, mark } from "./parts.js";
import { printOut } from "./share/print.js";
import { w } from "./words.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Part} Part */
/** @typedef {import("./types").Plan} Plan */
/** @typedef {import("./types").State} State */
/** What the core draws of a part, and what it says of it.
 * @typedef {{ picture: string, words: string[] }} Drawn */

/** On a narrow screen the picture keeps so many pixels for each of its own units: its figures stay readable, and what
 * does not fit is scrolled to. */
const PIXELS = 0.5;

/** Parts that have a drawing. @param {Plan} plan */
const panels = (plan) => plan.parts.filter((part) => part.making);

/** The part that this one is the mirror image of, whichever of the two says so.
 * @param {Plan} plan
 * @param {Part} part
 */
const twin = (plan, part) => plan.parts.find((other) => other.id === part.making?.mirrors || other.making?.mirrors === part.id);

/**
 * @param {App} app
 * @param {Part} part
 * @returns {Promise<Drawn | null>}
 */
async function drawn(app, part) {
  const [picture, words] = await Promise.all(["picture", "words"].map((what) => app.exportFile(`part-${what}:${part.id}`)));
  return picture && words ? { picture, words: JSON.parse(words) } : null;
}

/**
 * @param {Drawn} drawn
 * @param {string} name
 * @param {string[]} made addresses to be let go of when the picture is no longer shown
 */
function image({ picture }, name, made) {
  const src = URL.createObjectURL(new Blob([picture], { type: "image/svg+xml" }));
  made.push(src);
  const picked = h("img", { src, alt: w.parts.drawing(name) });
  const wide = Number(/viewBox="0 0 ([\d.]+) /.exec(picture)?.[1] ?? 0);
  picked.style.minWidth = `${Math.round(wide * PIXELS)}px`;
  return picked;
}

/** The first line is the part's name with its sizes. @param {string[]} words */
const sentences = ([first = "", ...rest]) => [
  h("p", { class: "part-name" }, fractions(first)),
  h("ul", {}, ...rest.map((said) => h("li", {}, fractions(said)))),
];

/**
 * Prints drawings, one a page.
 * @param {App} app
 * @param {Part[]} parts
 */
async function onPaper(app, parts) {
  /** @type {string[]} */
  const made = [];
  const pages = [];
  for (const part of parts) {
    const found = await drawn(app, part);
    if (!found) continue;
    const picture = image(found, part.name, made);
    await picture.decode().catch(() => {});
    pages.push(h("section", { class: "paper-part", lang: "en" }, picture, ...sentences(found.words)));
  }
  printOut(pages, made);
}

/**
 * The list of parts with their drawings.
 * @param {App} app
 */
export function partDrawings(app) {
  const over = sheet();
  over.element.classList.add("part-sheet");
  const body = h("tbody", {});
  const all = h("button", { type: "button", onclick: () => onPaper(app, panels(/** @type {Plan} */ (app.state().plan))) }, glyph("print"), w.parts.printAll);
  const old = h("p", { class: "quiet", hidden: true }, w.page.staleSizes);
  const heads = w.parts.heads.map((head, i) => h("th", { scope: "col", class: i === 2 ? "number" : null }, head));
  const table = h("table", { class: "parts drawn-parts" }, h("caption", {}, w.parts.title), h("thead", {}, h("tr", {}, ...heads)), body);
  const element = h("section", { class: "part-list", hidden: true }, table, old, h("p", {}, all), over.element);
  /** @type {string[]} Pictures on the sheet. */
  let made = [];
  over.element.addEventListener("close", letGo);

  function letGo() {
    for (const src of made) URL.revokeObjectURL(src);
    made = [];
  }

  /** @param {string} id */
  async function show(id) {
    const { plan } = app.state();
    const parts = plan ? panels(plan) : [];
    const at = parts.findIndex((part) => part.id === id);
    const part = parts[at];
    if (!part) return;
    const found = await drawn(app, part);
    if (!found) {
      app.notice(w.parts.none);
      return;
    }
    letGo();
    const step = (/** @type {number} */ by, /** @type {string} */ label) => {
      const next = parts[at + by];
      return h("button", { type: "button", disabled: !next, onclick: () => next && show(next.id) }, label);
    };
    const print = h("button", { type: "button", onclick: () => onPaper(app, [part]) }, glyph("print"), w.parts.print);
    over.show(
      part.name,
      h("div", { class: "part-view" }, h("div", { class: "part-picture", tabindex: 0 }, image(found, part.name, made)), h("div", { class: "part-said" }, ...sentences(found.words))),
      h("div", { class: "part-bar" }, step(-1, w.parts.before), step(1, w.parts.after), print),
    );
  }

  /**
   * @param {Plan} plan
   * @param {Part} part
   */
  function line(plan, part) {
    const other = twin(plan, part);
    const [length, width] = asCut(part);
    return h(
      "tr",
      { "data-part": part.id },
      h("td", { class: "mark" }, mark(plan.parts.indexOf(part))),
      h(
        "th",
        { scope: "row" },
        h("button", { type: "button", class: "plain", onclick: () => show(part.id) }, part.name),
        other ? h("span", { class: "quiet reason" }, w.parts.mirrors(other.name)) : null,
      ),
      h("td", { class: "number" }, fractions(printSides({ ...part, length, width }, plan.unit))),
    );
  }

  return {
    element,
    /** @param {State} state */
    update({ plan, stale }) {
      element.hidden = plan === null;
      old.hidden = !stale;
      if (!plan) return;
      keep(body, panels(plan).map((part) => [JSON.stringify([plan.parts.indexOf(part), part, twin(plan, part)?.name, plan.unit]), () => line(plan, part)]));
    },
  };
}
