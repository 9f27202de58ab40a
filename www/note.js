// A remark beside its sign.
import { h } from "./dom.js";
import { glyph } from "./glyphs.js";

/**
 * @param {string} sign
 * @param {string} kind
 * @param {...(Node | string)} words
 */
export const note = (sign, kind, ...words) => h("p", { class: "note", "data-kind": kind }, glyph(sign), h("span", {}, ...words));
