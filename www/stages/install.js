// Install: what is done in the room. Steps come from the plan; until it has some, the page says so.
import { checked, checkedAt } from "../accepting.js";
import { fractions, h } from "../dom.js";
import { glyph } from "../glyphs.js";
import { isListed } from "../scenario.js";

const TIPS = "Fix the cabinet to the wall before you load it: a full pull-out can tip it over.";
/** Of a piece that is given part by part nobody knows here whether it stands at a wall. */
const TIPS_PIECE = "Fix what is tall or narrow to the wall before you load it: it can tip over.";

/** @param {string} tips */
const cautions = (tips) => [
  "Find wires and pipes before you drill a wall.",
  tips,
  "Lift and carry with a second person where one cannot do it with ease.",
  "Local codes and a licensed person come first, for wiring, water, gas and fixing to the wall.",
];

/** @type {import("../types").Stage} */
export const stage = {
  mount(root, app) {
    const given = isListed(app.state().scenario);
    const list = h("div", {});
    const said = h("div", {});
    /** @type {unknown} */
    let told = null;
    root.append(
      h("h1", {}, "Install"),
      ...cautions(given ? TIPS_PIECE : TIPS).map((text) => h("p", { class: "remark", "data-severity": "caution" }, glyph("caution"), h("span", {}, text))),
      h("p", { class: "quiet" }, "Common practice, no source."),
      said,
      list,
    );
    /** @type {unknown} */
    let shown = false;
    return {
      update(state) {
        if (told !== state.outcome) {
          told = state.outcome;
          said.replaceChildren(checked(app, checkedAt(state.outcome, "install"), "What the checks say") ?? "");
        }
        if (shown === state.plan) return;
        shown = state.plan;
        const steps = (state.plan?.steps ?? []).filter((step) => step.stage === "install");
        list.replaceChildren(
          steps.length > 0
            ? h("ol", { class: "install-steps" }, ...steps.map((step) => h("li", { value: step.n }, fractions(step.text))))
            : h(
                "div",
                {},
                h("p", {}, "The steps in the room are not worked out yet. This stage will hold:"),
                h(
                  "ul",
                  {},
                  h("li", {}, given ? "bringing the piece in: which way round, and who lifts" : "bringing the cabinet in: which way round, and who lifts"),
                  h("li", {}, "levelling it on the floor as measured, with shims"),
                  h("li", {}, "fixing it to the wall and to its neighbours"),
                  given ? null : h("li", {}, "filler, front and the final gaps"),
                ),
              ),
        );
      },
    };
  },
};
