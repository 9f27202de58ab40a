// Buttons for what fingers do to the picture: no gesture is the only way.
import { h } from "../dom.js";
import { glyph } from "../glyphs.js";
import { w } from "../words.js";

/** @typedef {import("../types").App} App */

/** One press turns by about as much as a short stroke of a finger, in CSS pixels. */
const STROKE = 70;

/**
 * @param {App} app
 * @param {() => void} replay
 * @param {HTMLElement | null} ways opens other ways to look
 */
export function viewButtons(app, replay, ways) {
  const { picture } = app;
  /** @type {[string, string, () => void][]} */
  const all = [
    ["turn-left", w.view.left, () => picture.turn((view) => view.orbit(-STROKE, 0))],
    ["turn-right", w.view.right, () => picture.turn((view) => view.orbit(STROKE, 0))],
    ["up", w.view.higher, () => picture.turn((view) => view.orbit(0, STROKE))],
    ["down", w.view.lower, () => picture.turn((view) => view.orbit(0, -STROKE))],
    ["closer", w.view.closer, () => picture.turn((view) => view.zoom(1.25))],
    ["farther", w.view.farther, () => picture.turn((view) => view.zoom(0.8))],
  ];
  const ring = h(
    "div",
    { class: "ring", id: "view-buttons", role: "group", "aria-label": w.view.title },
    ...all.map(([sign, label, act]) => h("button", { type: "button", "aria-label": label, title: label, onclick: act }, glyph(sign))),
  );
  const toggle = h(
    "button",
    {
      type: "button",
      class: "look",
      "aria-label": w.view.look,
      title: w.view.look,
      "aria-expanded": "false",
      "aria-controls": "view-buttons",
      onclick: () => {
        const open = ring.toggleAttribute("data-open");
        toggle.setAttribute("aria-expanded", String(open));
      },
    },
    glyph("look"),
  );
  const home = h(
    "button",
    { type: "button", class: "home", onclick: () => picture.home() },
    glyph("home"),
    h("span", {}, w.view.home),
  );
  const again = h("button", { type: "button", class: "replay", "aria-label": w.bench.replay, title: w.bench.replay, onclick: replay }, glyph("replay"));
  return h("div", { class: "view-buttons" }, toggle, ring, h("div", { class: "right" }, ways, again, home));
}
