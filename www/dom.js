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

/**
 * Text with its fractions set as fractions and kept on one line with their whole number.
 * The characters stay as they are, so that reading aloud and copying give the same words.
 * @param {string} text
 * @returns {DocumentFragment}
 */
export function fractions(text) {
  const out = document.createDocumentFragment();
  let from = 0;
  for (const hit of text.matchAll(/(?<![\w/])((?:\d+[ -])?)(\d+\/\d+)(?![\w/])/g)) {
    out.append(text.slice(from, hit.index));
    const inch = /^ in\b/.exec(text.slice(hit.index + hit[0].length));
    out.append(
      h("span", { class: "size" }, hit[1] ?? "", h("span", { class: "frac" }, hit[2] ?? ""), inch ? inch[0] : ""),
    );
    from = hit.index + hit[0].length + (inch ? inch[0].length : 0);
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
