// "I already did this": the steps up to here are ticked, or the rest is planned anew from here.
import { h } from "../dom.js";
import { fromHere } from "../order-choices.js";
import { w } from "../words.js";

/**
 * @param {import("../types").App} app
 * @param {() => void} tickAll
 * @param {() => void} close
 */
export function already(app, tickAll, close) {
  const { can, says, given, take, clear } = fromHere(app);
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
    h("p", { class: "quiet" }, says),
    h(
      "div",
      { class: "buttons" },
      h(
        "button",
        {
          type: "button",
          "aria-disabled": String(!can),
          onclick: () => can && act(take)(),
        },
        w.already.replan,
      ),
      given > 0 ? h("button", { type: "button", onclick: act(clear) }, w.already.again) : null,
    ),
  );
}
