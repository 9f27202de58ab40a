// One sheet over the stage for everything rare. It shows one page at a time.
import { h } from "../dom.js";
import { glyph } from "../glyphs.js";
import { w } from "../words.js";

/** @typedef {{ show(title: string, ...content: (Node | null)[]): void, close(): void, element: HTMLDialogElement }} Sheet */

/** @returns {Sheet} */
export function sheet() {
  const title = h("h2", { id: "sheet-title", tabindex: -1 });
  const body = h("div", { class: "sheet-body" });
  const close = h("button", { type: "button", class: "close", "aria-label": w.sheet.close, title: w.sheet.close, onclick: () => element.close() }, glyph("close"));
  const element = h("dialog", { class: "sheet", "aria-labelledby": "sheet-title" }, h("div", { class: "sheet-head" }, title, close), body);
  // A tap beside it closes it.
  element.addEventListener("pointerdown", (event) => {
    if (event.target !== element) return;
    const { left, right, top, bottom } = element.getBoundingClientRect();
    const inside = event.clientX >= left && event.clientX <= right && event.clientY >= top && event.clientY <= bottom;
    if (!inside) element.close();
  });
  return {
    element,
    close: () => element.close(),
    show(name, ...content) {
      title.textContent = name;
      body.replaceChildren(...content.filter((one) => one !== null));
      if (!element.open) element.showModal();
      body.scrollTop = 0;
      title.focus();
    },
  };
}

/**
 * A row of the sheet that does something.
 * @param {string} sign
 * @param {string} label
 * @param {string} hint
 * @param {() => void} act
 */
export const entry = (sign, label, hint, act) =>
  h("li", {}, h("button", { type: "button", class: "entry", onclick: act }, glyph(sign), h("span", {}, h("strong", {}, label), hint ? h("span", { class: "quiet" }, hint) : null)));

/**
 * @param {string} title
 * @param {...(Node | null)} rows
 */
export const section = (title, ...rows) => h("section", {}, h("h3", {}, title), h("ul", { class: "entries" }, ...rows));
