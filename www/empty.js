// What stands where a plan will be: that it is being worked out, or what it waits for.
import { h } from "./dom.js";
import { w } from "./words.js";

/**
 * @param {string} missing said when the sizes give no plan
 * @param {string} coming said while one is worked out
 */
export function emptied(missing, coming) {
  const element = h("p", { class: "empty", hidden: true });
  /** @type {string} */
  let said = "";
  return {
    element,
    /** @param {import("./types").State} state */
    update(state) {
      element.hidden = state.plan !== null;
      const say = state.outcome === null ? coming : missing;
      if (say === said) return;
      said = say;
      element.replaceChildren(say, state.outcome === null ? "" : h("a", { href: "#measure" }, w.page.fixFirst));
    },
  };
}
