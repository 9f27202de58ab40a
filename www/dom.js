// Elements made one by one: data never passes through an HTML parser.
import { inWords } from "./field-words.js";

const SVG = "http://www.w3.org/2000/svg";

/**
 * @typedef {string | number | boolean | null | undefined | ((event: any) => void)} Value
 * @typedef {Node | string | null | undefined | false} Kid
 */

/**
 * @param {Element} element
 * @param {Record<string, Value>} props `onclick` and the like are listeners; true sets an empty attribute.
 * @param {Kid[]} kids
 */
function fill(element, props, kids) {
  for (const [name, value] of Object.entries(props)) {
    if (value === null || value === undefined || value === false) continue;
    if (typeof value === "function") element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? "" : String(value));
  }
  for (const kid of kids) if (kid !== null && kid !== undefined && kid !== false) element.append(kid);
}

/**
 * An HTML element.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag
 * @param {Record<string, Value>} [props]
 * @param {...Kid} kids
 * @returns {HTMLElementTagNameMap[K]}
 */
export function h(tag, props = {}, ...kids) {
  const element = document.createElement(tag);
  fill(element, props, kids);
  return element;
}

/**
 * An SVG element.
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} tag
 * @param {Record<string, Value>} [props]
 * @param {...Kid} kids
 * @returns {SVGElementTagNameMap[K]}
 */
export function s(tag, props = {}, ...kids) {
  const element = document.createElementNS(SVG, tag);
  fill(element, props, kids);
  return element;
}

/** A screw's size, a whole and a fraction, a figure with its unit: what must not part at a line's end. */
const SIZE = /(?<![\w/.])(#\d+ × )?(?:(\d+[ -])?(\d+)\/(\d+)|(\d+(?:\.\d+)?))( in\b| mm\b| kg\b| lb\b)?(?![\w/])/g;

/**
 * Text with its fractions set as fractions and its sizes kept on one line, and without the file's language.
 * Else the characters stay as they are, so that reading aloud and copying give the same words.
 * @param {string} written
 * @returns {DocumentFragment}
 */
export function fractions(written) {
  const text = inWords(written);
  const out = document.createDocumentFragment();
  let from = 0;
  for (const hit of text.matchAll(SIZE)) {
    const [all, gauge, whole, over, under, figure, unit] = hit;
    if (figure && !gauge && !unit) continue;
    const fraction = over
      ? h("span", { class: "frac" }, h("span", { class: "over" }, over), "/", h("span", { class: "under" }, under))
      : null;
    out.append(
      text.slice(from, hit.index),
      h("span", { class: "size" }, gauge, whole, fraction, figure, unit),
    );
    from = hit.index + all.length;
  }
  out.append(text.slice(from));
  return out;
}

/** What stands in a parent, by name.
 * @type {WeakMap<Element, Map<string, Element>>} */
const standing = new WeakMap();

/**
 * Fills a parent with elements by name. One that was there by its name stays the same one, with its focus and scroll.
 * @param {Element} parent that nobody else fills
 * @param {[string, () => Element][]} wanted no name twice
 */
export function keep(parent, wanted) {
  const before = standing.get(parent) ?? new Map();
  const now = new Map(wanted.map(([name, make]) => [name, before.get(name) ?? make()]));
  standing.set(parent, now);
  for (const [name, element] of before) if (!now.has(name)) element.remove();
  let at = parent.firstElementChild;
  for (const element of now.values()) {
    // Moving an element costs its focus, so only what stands elsewhere is moved.
    if (at === element) at = element.nextElementSibling;
    else parent.insertBefore(element, at);
  }
}

/** What a control is known by when its form is made anew. @param {Element} control */
const called = (control) => control.id || `${control.tagName} ${control.getAttribute("aria-label") ?? control.textContent}`;

/**
 * Fills a parent anew; the focus goes to what took the place of the control that had it.
 * @param {Element} parent
 * @param {...Kid} kids
 */
export function refill(parent, ...kids) {
  const active = document.activeElement;
  const had = active && parent.contains(active) ? called(active) : "";
  parent.replaceChildren();
  fill(parent, {}, kids);
  const now = had === "" ? undefined : [...parent.querySelectorAll("input, select, button, summary")].find((control) => called(control) === had);
  if (now instanceof HTMLElement) now.focus({ preventScroll: true });
}

/**
 * Offers text or bytes as a file.
 * @param {string} name
 * @param {BlobPart} content
 * @param {string} type
 */
export function download(name, content, type) {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = h("a", { href: url, download: name });
  link.click();
  // The browser reads the address after this turn; freeing it at once loses the file in some.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
