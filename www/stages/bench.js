// Bench: one step at a time, the picture first.
import { asBefore, bodyHead } from "../bench/again.js";
import { wakefulness } from "../bench/awake.js";
import { card } from "../bench/card.js";
import { clockStart } from "../bench/clock-start.js";
import { clocks } from "../bench/clocks.js";
import { fit } from "../bench/fit.js";
import { wanted } from "../bench/keys.js";
import { callAhead, pair } from "../bench/pair.js";
import { rehearsal } from "../bench/rehearsal.js";
import { sheet } from "../bench/sheet.js";
import { hush, speak } from "../bench/speech.js";
import { isTicks, names, tick, ticked } from "../bench/ticks.js";
import { viewButtons } from "../bench/view-buttons.js";
import { views } from "../bench/views.js";
import { fractions, h } from "../dom.js";
import { emptied } from "../empty.js";
import { glyph } from "../glyphs.js";
import { orderChoices } from "../order-choices.js";
import { benchSteps } from "../plan.js";
import { repeats } from "../repeats.js";
import { settings } from "../settings.js";
import { stepWords } from "../step-words.js";
import { whenElsewhere } from "../stored.js";
import { CORE, w } from "../words.js";

/** @typedef {import("../types").App} App */
/** @typedef {import("../types").Plan} Plan */

/** @type {import("../types").Stage} */
export const stage = {
  mount(root, app) {
    /** @type {Plan | null} */
    let listed = null;
    /** @type {unknown} */
    let shown = null;
    /** What the steps are ticked off by.
     * @type {string[]} */
    let called = [];
    /** Steps of what is built once more.
     * @type {ReturnType<typeof repeats>} */
    let again = new Map();
    /** @type {ReturnType<typeof rehearsal> | null} */
    let quiz = null;
    const at = () => {
      const state = app.state();
      const steps = benchSteps(state.plan);
      return { steps, i: steps.findIndex((step) => step.n === state.step) };
    };
    const go = (/** @type {number} */ by) => {
      const { steps, i } = at();
      const step = steps[i + by];
      if (!step) return;
      ways.stepShown();
      app.goStep(step.n, true);
    };

    const words = h("div", { class: "words", tabindex: 0, role: "region", "aria-label": w.bench.thisStep });
    const back = h("button", { type: "button", class: "back", onclick: () => go(-1) }, glyph("left"), h("span", {}, w.bench.back));
    const next = h("button", { type: "button", class: "next", onclick: () => go(1) }, h("span", {}, w.bench.next), glyph("right"));
    const done = h("button", { type: "button", class: "done", "aria-pressed": "false", onclick: () => tickThis() }, glyph("box"), h("span", {}, w.bench.done));
    const rare = h("button", { type: "button", class: "rare", "aria-haspopup": "dialog", onclick: openMore }, glyph("more"), h("span", {}, w.bench.more));
    const over = sheet();
    const running = clocks(app.say);
    const awakeSign = h("span", { class: "awake", role: "status" });
    const wake = wakefulness((on) => awakeSign.replaceChildren(...(on ? [glyph("sun"), h("span", {}, w.bench.awake)] : [])));
    const count = h("span", { class: "count" });
    const progress = h("progress", { max: 1, value: 0, "aria-label": w.bench.progress });
    const list = h("ol", { "aria-label": w.bench.steps });
    const all = h(
      "button",
      { type: "button", class: "all", "aria-expanded": "false", "aria-controls": "all-steps", onclick: () => open(!drawer.hasAttribute("data-open")) },
      glyph("list"),
      h("span", {}, w.bench.all),
    );
    const choices = orderChoices(app);
    const drawer = h(
      "div",
      { class: "drawer", id: "all-steps", onfocusin: () => open(true) },
      choices.element,
      list,
    );
    const stand = h("div", { class: "stand" });
    const empty = emptied(w.bench.none, w.bench.coming);
    const bench = h(
      "div",
      { class: "bench" },
      stand,
      words,
      h("div", { class: "bar", role: "group", "aria-label": w.bench.through }, back, all, rare, h("div", { class: "where" }, h("div", { class: "counts" }, count, awakeSign), progress), done, next),
      drawer,
      over.element,
    );
    root.append(h("h1", { class: "vh" }, w.stages.bench), empty.element, bench);
    const ways = views(app, () => go(0));
    const told = card(app, ways.measures);
    app.picture.tapped = told.tapped;
    stand.append(app.picture.figure, viewButtons(app, () => go(0), ways.opener), ways.panel, told.element, running.element);

    /** @param {boolean} wanted */
    function open(wanted) {
      if (wanted === drawer.hasAttribute("data-open")) return;
      drawer.toggleAttribute("data-open", wanted);
      all.setAttribute("aria-expanded", String(wanted));
      if (wanted) list.querySelector("[aria-current]")?.scrollIntoView({ block: "nearest" });
    }

    /** @param {KeyboardEvent} event */
    function onKey(event) {
      if (event.key === "Escape" && drawer.hasAttribute("data-open")) {
        open(false);
        all.focus();
        return;
      }
      const what = settings.get().keys ? wanted(event, words) : null;
      if (what === null) return;
      go({ next: 1, back: -1, again: 0 }[what]);
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

    /** After a tap the button keeps no focus: the next press of a pedal, a space, would press it again.
     * @param {MouseEvent} event */
    function onTap(event) {
      const button = event.detail > 0 && event.target instanceof Element ? event.target.closest(".bar button, .view-buttons button, .clocks button") : null;
      if (button instanceof HTMLElement && button !== all && button !== rare) button.blur();
    }
    bench.addEventListener("click", onTap);

    /** What is rare is fetched when it is asked for. */
    async function openMore() {
      const { more } = await import("../bench/more.js");
      more(app, over, { rehearse, tickAll });
    }

    function tickThis() {
      const { i } = at();
      const name = called[i];
      if (name === undefined) return;
      const { example } = app.state();
      tick(example, [name], !ticked(example).has(name));
      showTicks();
    }

    function tickAll() {
      tick(app.state().example, called.slice(0, at().i + 1), true);
      showTicks();
    }

    function showTicks() {
      const { steps, i } = at();
      const all = ticked(app.state().example);
      const has = (/** @type {number} */ n) => all.has(called[n] ?? "");
      [...list.children].forEach((item, n) => {
        if (item.toggleAttribute("data-done", has(n)) !== (item.querySelector(".ticked") !== null)) {
          if (has(n)) item.querySelector(".n")?.append(h("span", { class: "ticked" }, glyph("check"), h("span", { class: "vh" }, w.bench.isDone)));
          else item.querySelector(".ticked")?.remove();
        }
      });
      done.setAttribute("aria-pressed", String(has(i)));
      done.querySelector(".glyph")?.replaceWith(glyph(has(i) ? "check" : "box"));
      const n = steps.filter((_, k) => has(k)).length;
      count.textContent = n > 0 ? w.bench.countDone(i + 1, steps.length, n) : w.bench.count(i + 1, steps.length);
    }
    const unheard = whenElsewhere((key) => {
      if (isTicks(key, app.state().example)) showTicks();
    });

    function rehearse() {
      quiz = rehearsal({
        done: (right, asked) => app.say(w.rehearsal.score(right, asked)),
        show: () => go(0),
        go,
        stop: () => {
          quiz = null;
          shown = null;
          showStep();
          go(0);
        },
      });
      shown = null;
      showStep();
    }

    /** Puts the step into words, or asks for it. */
    function showStep() {
      const { plan } = app.state();
      const { steps, i } = at();
      const step = steps[i];
      if (!plan || !step || shown === step) return;
      shown = step;
      bench.toggleAttribute("data-rehearsal", quiz !== null);
      if (quiz) {
        words.replaceChildren(quiz.ask(steps, i));
        if (i === 0) app.picture.finished(w.bench.whole);
        else app.showBefore(step.n);
      } else {
        const said = stepWords(plan, step);
        const following = steps[i + 1];
        const once = asBefore(plan, step, again);
        if (once) said.querySelector(".sentence")?.after(once);
        const clock = clockStart(plan, step, running);
        if (clock) (said.querySelector('[data-kind="glue"], .wait') ?? said.querySelector(".sentence"))?.after(clock);
        const two = settings.get().pair ? pair(plan, step, following) : null;
        const ahead = callAhead(step, following);
        const whys = said.querySelector(".why");
        for (const part of [two, ahead]) {
          if (!part) continue;
          if (whys) whys.before(part);
          else said.append(part);
        }
        words.replaceChildren(said);
        if (settings.get().spoken) speak([step.text, ...step.checks.map((check) => check.text).filter((text) => text !== step.text)].join(" "));
      }
      words.scrollTop = 0;
      fit(words, bench);
    }
    /** @type {boolean} */
    let paired = settings.get().pair;
    const liked = () => {
      const now = settings.get();
      wake.want(now.awake);
      if (!now.spoken) hush();
      if (now.pair !== paired) {
        paired = now.pair;
        shown = null;
        showStep();
      }
      fit(words, bench);
    };
    const disliked = settings.subscribe(liked);

    const sized = new ResizeObserver(() => fit(words, bench));
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
          called = names(steps);
          again = repeats(plan, steps);
          list.replaceChildren(
            ...steps.map((step, n) =>
              h(
                "li",
                {},
                // Two levels: what is built, then its steps.
                steps[n - 1]?.body === step.body ? null : bodyHead(plan, step, again),
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
                  h("span", { lang: CORE }, fractions(step.text)),
                ),
              ),
            ),
          );
        }
        const step = steps[i];
        if (!step || shown === step) return;
        ways.stepShown();
        [...list.children].forEach((item, n) => {
          if (n === i) item.setAttribute("aria-current", "step");
          else item.removeAttribute("aria-current");
        });
        progress.max = steps.length;
        progress.value = i + 1;
        back.setAttribute("aria-disabled", String(i === 0));
        next.setAttribute("aria-disabled", String(i === steps.length - 1));
        showTicks();
        showStep();
        wake.want(settings.get().awake);
        running.render();
      },
      leave() {
        document.removeEventListener("keydown", onKey);
        document.removeEventListener("pointerdown", onPress);
        sized.disconnect();
        unheard();
        disliked();
        running.end();
        wake.end();
        ways.end();
        app.picture.tapped = null;
        hush();
      },
    };
  },
};
