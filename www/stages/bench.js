// Bench: one step at a time, the picture first.
import { fractions, h } from "../dom.js";
import { emptied } from "../empty.js";
import { glyph } from "../glyphs.js";
import { orderChoices } from "../order-choices.js";
import { stepWords } from "../step-words.js";

/** @typedef {import("../types").App} App */
/** @typedef {import("../types").Plan} Plan */

/** One press turns by about as much as a short stroke of a finger, in CSS pixels. */
const STROKE = 70;

/**
 * @param {App} app
 */
function viewButtons(app) {
  const { picture } = app;
  /** @type {[string, string, () => void][]} */
  const all = [
    ["turn-left", "Turn left", () => picture.turn((view) => view.orbit(-STROKE, 0))],
    ["turn-right", "Turn right", () => picture.turn((view) => view.orbit(STROKE, 0))],
    ["up", "Look from higher", () => picture.turn((view) => view.orbit(0, STROKE))],
    ["down", "Look from lower", () => picture.turn((view) => view.orbit(0, -STROKE))],
    ["closer", "Closer", () => picture.turn((view) => view.zoom(1.25))],
    ["farther", "Farther", () => picture.turn((view) => view.zoom(0.8))],
  ];
  const ring = h(
    "div",
    { class: "ring", id: "view-buttons", role: "group", "aria-label": "View" },
    ...all.map(([sign, label, act]) => h("button", { type: "button", "aria-label": label, title: label, onclick: act }, glyph(sign))),
  );
  const toggle = h(
    "button",
    {
      type: "button",
      class: "look",
      "aria-label": "Look round",
      title: "Look round",
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
    h("span", {}, "Step's own view"),
  );
  return h("div", { class: "view-buttons" }, toggle, ring, home);
}

/** @param {boolean} on */
const keysSaid = (on) => `Keys ${on ? "on" : "off"}: right is Next, left is Back, R is Replay`;

/** @param {Plan} plan */
const benchSteps = (plan) => plan.steps.filter((step) => step.stage === "bench");

/** @type {import("../types").Stage} */
export const stage = {
  mount(root, app) {
    let keysOn = true;
    /** @type {Plan | null} */
    let listed = null;
    /** @type {unknown} */
    let shown = null;
    const at = () => {
      const state = app.state();
      const steps = state.plan ? benchSteps(state.plan) : [];
      return { steps, i: steps.findIndex((step) => step.n === state.step) };
    };
    const go = (/** @type {number} */ by) => {
      const { steps, i } = at();
      const step = steps[i + by];
      if (step) app.goStep(step.n, true);
    };

    const words = h("div", { class: "words", tabindex: 0, role: "region", "aria-label": "This step" });
    const back = h("button", { type: "button", class: "back", onclick: () => go(-1) }, glyph("left"), h("span", {}, "Back"));
    const next = h("button", { type: "button", class: "next", onclick: () => go(1) }, h("span", {}, "Next"), glyph("right"));
    const replay = h("button", { type: "button", class: "replay", onclick: () => go(0) }, "Replay");
    const count = h("span", { class: "count" });
    const progress = h("progress", { max: 1, value: 0, "aria-label": "Steps done" });
    const list = h("ol", { "aria-label": "Steps" });
    const all = h(
      "button",
      { type: "button", class: "all", "aria-expanded": "false", "aria-controls": "all-steps", onclick: () => open(!drawer.hasAttribute("data-open")) },
      glyph("list"),
      h("span", {}, "All steps"),
    );
    const keys = h(
      "button",
      {
        type: "button",
        class: "keys",
        "aria-pressed": "true",
        onclick: () => {
          keysOn = !keysOn;
          keys.setAttribute("aria-pressed", String(keysOn));
          keys.textContent = keysSaid(keysOn);
        },
      },
      keysSaid(true),
    );
    const choices = orderChoices(app);
    const drawer = h(
      "div",
      { class: "drawer", id: "all-steps", onfocusin: () => open(true) },
      choices.element,
      list,
      keys,
    );
    const stand = h("div", { class: "stand" });
    const empty = emptied("No steps yet. ", "Working out the steps.");
    const bench = h(
      "div",
      { class: "bench" },
      stand,
      words,
      h("div", { class: "bar", role: "group", "aria-label": "Go through the steps" }, back, all, h("div", { class: "where" }, count, progress), replay, next),
      drawer,
    );
    root.append(h("h1", { class: "vh" }, "Bench"), empty.element, bench);
    stand.append(app.picture.figure, viewButtons(app));

    /** @param {boolean} wanted */
    function open(wanted) {
      if (wanted === drawer.hasAttribute("data-open")) return;
      drawer.toggleAttribute("data-open", wanted);
      all.setAttribute("aria-expanded", String(wanted));
      if (wanted) list.querySelector("[aria-current]")?.scrollIntoView({ block: "nearest" });
    }

    /** @param {KeyboardEvent} event */
    function onKey(event) {
      const target = event.target instanceof HTMLElement ? event.target : null;
      if (event.key === "Escape" && drawer.hasAttribute("data-open")) {
        open(false);
        all.focus();
        return;
      }
      if (!keysOn || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
      if (target?.closest("input, select, textarea, [contenteditable]")) return;
      const onControl = target?.closest("button, a, summary") !== null && target !== null;
      const { key } = event;
      if (key === "ArrowRight" || key === "PageDown" || (key === " " && !onControl)) go(1);
      else if (key === "ArrowLeft" || key === "PageUp") go(-1);
      else if (key === "r" || key === "R") go(0);
      else return;
      event.preventDefault();
    }
    document.addEventListener("keydown", onKey);

    /** A tap beside the open drawer closes it.
     * @param {PointerEvent} event */
    function onPress(event) {
      const target = event.target instanceof Node ? event.target : null;
      if (drawer.hasAttribute("data-open") && target && !drawer.contains(target) && !all.contains(target)) open(false);
    }
    document.addEventListener("pointerdown", onPress);

    /** Words that run over their place are set smaller, three times at most, before they scroll. */
    function fit() {
      delete words.dataset.tight;
      for (const tight of ["1", "2", "3"]) {
        if (words.scrollHeight <= words.clientHeight + 1) break;
        words.dataset.tight = tight;
      }
    }
    const sized = new ResizeObserver(fit);
    sized.observe(words);

    return {
      update(state) {
        const { plan } = state;
        empty.update(state);
        bench.hidden = plan === null;
        if (!plan) return;
        choices.update(state);
        const { steps, i } = at();
        if (listed !== plan) {
          listed = plan;
          list.replaceChildren(
            ...steps.map((step) =>
              h(
                "li",
                {},
                h(
                  "button",
                  {
                    type: "button",
                    onclick: () => {
                      app.goStep(step.n, true);
                      open(false);
                      all.focus();
                    },
                  },
                  h("span", { class: "n" }, `${step.n}`),
                  h("span", {}, fractions(step.text)),
                ),
              ),
            ),
          );
        }
        const step = steps[i];
        if (!step || shown === step) return;
        shown = step;
        [...list.children].forEach((item, n) => {
          if (n === i) item.setAttribute("aria-current", "step");
          else item.removeAttribute("aria-current");
        });
        words.replaceChildren(stepWords(plan, step));
        words.scrollTop = 0;
        count.textContent = `step ${i + 1} of ${steps.length}`;
        progress.max = steps.length;
        progress.value = i + 1;
        back.setAttribute("aria-disabled", String(i === 0));
        next.setAttribute("aria-disabled", String(i === steps.length - 1));
        fit();
      },
      leave() {
        document.removeEventListener("keydown", onKey);
        document.removeEventListener("pointerdown", onPress);
        sized.disconnect();
      },
    };
  },
};
