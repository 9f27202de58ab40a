// Elements made one by one: data never passes through an HTML parser.

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
 * Text with its fractions set as fractions and its sizes kept on one line.
 * The characters stay as they are, so that reading aloud and copying give the same words.
 * @param {string} text
 * @returns {DocumentFragment}
 */
export function fractions(text) {
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

/**
 * Offers a text as a file.
 * @param {string} name
 * @param {string} text
 * @param {string} type
 */
export function download(name, text, type) {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = h("a", { href: url, download: name });
  link.click();
  // The browser reads the address after this turn; freeing it at once loses the file in some.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
