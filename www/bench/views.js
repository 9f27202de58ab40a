// Other ways to look: the finished piece, pulled apart, through the panels, cut open, what comes next, and
// the distance between two faces that are tapped.
import { h } from "../dom.js";
import { glyph } from "../glyphs.js";
import { w } from "../words.js";

/** @typedef {"finished" | "apart" | "through" | "section" | "next" | "measure"} Way */

/** One press moves the cut by so much of the size that it goes across. */
const SHARE = 1 / 16;

/**
 * @param {import("../types").App} app
 * @param {() => void} backToStep
 */
export function views(app, backToStep) {
  const { picture } = app;
  /** @type {Set<Way>} */
  const on = new Set();
  /** @type {[Way, string, string][]} */
  const all = [
    ["finished", "cube", w.views.finished],
    ["apart", "apart", w.views.apart],
    ["through", "through", w.views.through],
    ["section", "section", w.views.section],
    ["next", "right", w.views.next],
    ["measure", "measure", w.views.measure],
  ];
  const buttons = all.map(([way, sign, label]) =>
    h("button", { type: "button", "aria-pressed": "false", "data-way": way, onclick: () => toggle(way) }, glyph(sign), h("span", {}, label)),
  );
  /** Where it is cut open when it is. */
  const cut = { axis: 0, share: 0.5 };
  const press = (/** @type {string} */ sign, /** @type {string} */ label, /** @type {() => void} */ act) =>
    h("button", { type: "button", "aria-label": label, title: label, onclick: () => (act(), apply()) }, glyph(sign));
  const along = h("button", { type: "button", class: "across", onclick: () => ((cut.axis = (cut.axis + 1) % 3), (cut.share = 0.5), apply()) });
  const plane = h(
    "div",
    { class: "plane", role: "group", "aria-label": w.views.section, hidden: true },
    press("left", w.views.cutBack, () => (cut.share = Math.max(0, cut.share - SHARE))),
    along,
    press("right", w.views.cutOn, () => (cut.share = Math.min(1, cut.share + SHARE))),
  );
  const panel = h("div", { class: "ways", id: "ways", role: "group", "aria-label": w.views.title, hidden: true }, ...buttons.flatMap((button) => (button.dataset.way === "section" ? [button, plane] : [button])));
  const opener = h(
    "button",
    { type: "button", class: "ways-button", "aria-label": w.views.title, title: w.views.title, "aria-expanded": "false", "aria-controls": "ways", onclick: () => show(panel.hasAttribute("hidden")) },
    glyph("cube"),
  );

  /** @param {boolean} open */
  function show(open) {
    panel.hidden = !open;
    opener.setAttribute("aria-expanded", String(open));
  }

  function apply() {
    for (const button of buttons) button.setAttribute("aria-pressed", String(on.has(/** @type {Way} */ (button.dataset.way))));
    opener.toggleAttribute("data-on", on.size > 0);
    plane.hidden = !on.has("section");
    along.textContent = w.views.across[cut.axis] ?? "";
    picture.look({ through: on.has("through"), next: on.has("next"), apart: on.has("apart") });
    picture.section({ axis: on.has("section") ? cut.axis : -1, share: cut.share });
  }

  /** @param {Way} way */
  function toggle(way) {
    if (!on.delete(way)) on.add(way);
    apply();
    if (way !== "finished") return;
    if (on.has(way)) picture.finished(w.bench.whole);
    else backToStep();
  }

  return {
    opener,
    panel,
    measures: () => on.has("measure"),
    /** The picture shows a step again, as it comes. */
    stepShown() {
      if (!on.delete("finished")) return;
      apply();
    },
    /** Leaves the picture as other stages expect it. */
    end() {
      on.clear();
      apply();
    },
  };
}
