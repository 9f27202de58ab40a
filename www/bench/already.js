// "I already did this": the steps up to here are ticked, or the rest is planned anew from here.
import { h } from "../dom.js";
import { together } from "../order-choices.js";
import { listOf, valueAt } from "../scenario.js";
import { w } from "../words.js";

/**
 * @param {import("../types").App} app
 * @param {() => void} tickAll
 * @param {() => void} close
 */
export function already(app, tickAll, close) {
  const state = app.state();
  const found = state.plan ? together(state.plan, state.step) : null;
  const open = found?.open[0];
  const name = (/** @type {string} */ id) => state.plan?.parts.find((part) => part.id === id)?.name ?? id;
  const can = found !== null && open === undefined && !state.stale;
  const given = listOf(valueAt(state.scenario, ["order", "done", "parts"])).length > 0;
  const why = !found ? w.already.nothing : open ? w.already.open(name(open[0]), name(open[1])) : w.already.parts(found.parts.length);
  const act = (/** @type {() => void} */ does) => () => {
    does();
    close();
  };
  return h(
    "div",
    {},
    h("p", {}, w.already.tickIntro),
    h("button", { type: "button", class: "strong", onclick: act(tickAll) }, w.already.tick),
    h("h3", {}, w.already.replanTitle),
    h("p", {}, w.already.replanIntro),
    h("p", { class: "quiet" }, why),
    h(
      "div",
      { class: "buttons" },
      h(
        "button",
        {
          type: "button",
          "aria-disabled": String(!can),
          onclick: () => {
            if (!can || !found) return;
            app.edit(["order", "done"], { parts: found.parts, face: found.face });
            close();
          },
        },
        w.already.replan,
      ),
      given ? h("button", { type: "button", onclick: act(() => app.edit(["order", "done"], undefined)) }, w.already.again) : null,
    ),
  );
}
