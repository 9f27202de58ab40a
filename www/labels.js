// Names over the picture, in the page's own type; where they stand is worked out by the view.
import { fractions, h } from "./dom.js";
import { CORE } from "./words.js";

/**
 * @param {HTMLElement} layer as large as the picture
 * @param {import("./types").Label[]} wanted
 */
export function placeLabels(layer, wanted) {
  while (layer.childElementCount > wanted.length) layer.lastElementChild?.remove();
  wanted.forEach((label, i) => {
    const element = /** @type {HTMLElement} */ (layer.children[i] ?? layer.appendChild(h("span", { lang: CORE })));
    if (element.textContent !== label.text) element.replaceChildren(fractions(label.text));
    element.dataset.kind = label.kind;
    // Set through the object model: the content policy forbids style attributes.
    element.style.transform = `translate(${label.x}px, ${label.y}px) translate(-50%, -50%)`;
  });
}
