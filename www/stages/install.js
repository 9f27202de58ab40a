// Install: from the bench to the wall, one step at a time like the bench.
import { checked, checkedAt } from "../accepting.js";
import { fit } from "../bench/fit.js";
import { sheet } from "../bench/sheet.js";
import { isTicks, names, tick, ticked } from "../bench/ticks.js";
import { viewButtons } from "../bench/view-buttons.js";
import { wanted } from "../bench/keys.js";
import { fractions, h } from "../dom.js";
import { glyph } from "../glyphs.js";
import { installChoices } from "../install-choices.js";
import { remark } from "../remarks.js";
import { isListed } from "../scenario.js";
import { settings } from "../settings.js";
import { stepWords } from "../step-words.js";
import { read, whenElsewhere, write } from "../stored.js";
import { CORE, w } from "../words.js";

/** @typedef {import("../types").Plan} Plan */

/** Where the step is kept, for each piece. @param {string} example */
const keyOf = (example) => `room${example || " own"}`;

/** @type {import("../types").Stage} */
export const stage = {
  mount(root, app) {
    /** @type {Plan | null} */
    let plan = null;
    /** @type {string[]} */
    let called = [];
    let n = 1;

    const words = h("div", { class: "words", tabindex: 0, role: "region", "aria-label": w.bench.thisStep });
    const back = h("button", { type: "button", class: "back", onclick: () => go(-1) }, glyph("left"), h("span", {}, w.bench.back));
    const next = h("button", { type: "button", class: "next", onclick: () => go(1) }, h("span", {}, w.bench.next), glyph("right"));
    const done = h("button", { type: "button", class: "done", "aria-pressed": "false", onclick: tickThis }, glyph("box"), h("span", {}, w.bench.done));
    const rare = h("button", { type: "button", class: "rare", "aria-haspopup": "dialog", onclick: openRoom }, glyph("more"), h("span", {}, w.install.room));
    const all = h("button", { type: "button", class: "all", "aria-haspopup": "dialog", onclick: openList }, glyph("list"), h("span", {}, w.bench.all));
    const count = h("span", { class: "count" });
    const progress = h("progress", { max: 1, value: 0, "aria-label": w.bench.progress });
    const over = sheet();
    const stand = h("div", { class: "stand" }, app.picture.figure, viewButtons(app, () => go(0), null));
    const bench = h(
      "div",
      { class: "bench" },
      stand,
      words,
      h("div", { class: "bar", role: "group", "aria-label": w.bench.through }, back, all, rare, h("div", { class: "where" }, h("div", { class: "counts" }, count), progress), done, next),
    );
    const without = h("div", { class: "unroomed" });
    root.append(h("h1", { class: "vh" }, w.stages.install), without, bench, over.element);
    const choices = installChoices(app);

    const steps = () => plan?.steps ?? [];
    const at = () => steps()[n - 1];

    /** @param {number} by */
    function go(by) {
      if (!steps()[n - 1 + by]) return;
      n += by;
      write(keyOf(app.state().example), n > 1 ? String(n) : null);
      show(true);
    }

    /** @param {boolean} move */
    function show(move) {
      const step = at();
      if (!plan || !step) return;
      words.replaceChildren(stepWords(plan, step));
      words.scrollTop = 0;
      fit(words, bench);
      app.picture.show(step.n, step.text, move);
      app.say(w.page.stepSaid(n, steps().length, step.text));
      progress.max = steps().length;
      progress.value = n;
      back.setAttribute("aria-disabled", String(n === 1));
      next.setAttribute("aria-disabled", String(n === steps().length));
      showTicks();
    }

    function showTicks() {
      const have = ticked(app.state().example);
      const is = have.has(called[n - 1] ?? "");
      done.setAttribute("aria-pressed", String(is));
      done.querySelector(".glyph")?.replaceWith(glyph(is ? "check" : "box"));
      const many = called.filter((name) => have.has(name)).length;
      count.textContent = many > 0 ? w.bench.countDone(n, steps().length, many) : w.bench.count(n, steps().length);
    }

    function tickThis() {
      const { example } = app.state();
      const name = called[n - 1];
      if (name === undefined) return;
      tick(example, [name], !ticked(example).has(name));
      showTicks();
    }

    /** What is decided about the room, and what the checks say of it. */
    function openRoom() {
      choices.update(app.state());
      over.show(w.install.title, choices.element, checked(app, checkedAt(app.state().outcome, "install"), w.remark.checks));
    }

    function openList() {
      const item = (/** @type {import("../types").Step} */ step) =>
        h(
          "li",
          { value: step.n, "aria-current": step.n === n ? "step" : null },
          h(
            "button",
            {
              type: "button",
              class: "plain",
              onclick: () => {
                over.close();
                go(step.n - n);
              },
            },
            h("span", { lang: CORE }, fractions(step.text)),
          ),
        );
      over.show(w.bench.steps, h("ol", { class: "install-steps" }, ...steps().map(item)));
    }

    /** @param {KeyboardEvent} event */
    function onKey(event) {
      if (over.element.open || !settings.get().keys) return;
      const what = wanted(event, words);
      if (what === null) return;
      go({ next: 1, back: -1, again: 0 }[what]);
      event.preventDefault();
    }
    document.addEventListener("keydown", onKey);
    const unheard = whenElsewhere((key) => {
      if (isTicks(key, app.state().example)) showTicks();
    });

    /** Why there are no steps here.
     * @param {import("../types").State} state */
    function explain(state) {
      const found = (state.outcome?.findings ?? []).filter((finding) => finding.stage === "install" && finding.severity !== "note");
      without.replaceChildren(
        h("h2", {}, w.stages.install),
        h("p", {}, isListed(state.scenario)
          ? w.install.unknown
          : state.plan ? w.install.none : w.bench.coming),
        ...w.install.usual.map((text) => remark("caution", text)),
        h("p", { class: "quiet" }, w.install.common),
        checked(app, found, w.remark.checks) ?? "",
        isListed(state.scenario) ? "" : choices.element,
      );
    }

    /** @type {unknown} */
    let told = null;
    return {
      update(state) {
        const fresh = state.plan?.install ?? null;
        bench.hidden = fresh === null;
        without.hidden = fresh !== null;
        if (over.element.open || fresh === null) choices.update(state);
        if (fresh === null) {
          if (told !== state.outcome) explain(state);
          told = state.outcome;
          plan = null;
          return;
        }
        if (fresh === plan) return;
        plan = fresh;
        called = names(plan.steps);
        const kept = Number(read(keyOf(state.example)) ?? "1");
        n = Math.min(Math.max(1, Number.isInteger(kept) ? kept : 1), plan.steps.length);
        app.picture.load(plan, state.dark, state.reduced);
        show(false);
      },
      leave() {
        document.removeEventListener("keydown", onKey);
        unheard();
        const { plan: made, dark, reduced } = app.state();
        if (made) app.picture.load(made, dark, reduced);
      },
    };
  },
};
