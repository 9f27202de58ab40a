// Shows the stage that the address names, from the state.
import { h } from "./dom.js";
import { app, start, store } from "./planning.js";
import { stage as bench } from "./stages/bench.js";
import { stage as cut } from "./stages/cut.js";
import { stage as install } from "./stages/install.js";
import { stage as measure } from "./stages/measure.js";
import { stage as size } from "./stages/size.js";

/** @typedef {import("./types").State} State */
/** @typedef {import("./types").StageName} StageName */

/** @type {Record<StageName, import("./types").Stage>} */
const STAGES = { measure, size, cut, bench, install };

const main = /** @type {HTMLElement} */ (document.getElementById("main"));
const notice = /** @type {HTMLElement} */ (document.getElementById("notice"));
const stale = /** @type {HTMLElement} */ (document.getElementById("stale"));

/** @type {import("./types").Mounted | null} */
let mounted = null;
/** @type {StageName | null} */
let mountedStage = null;

/** What the plan shown is left over from, and where that is put right.
 * @param {boolean} aboutOrder */
function tellStale(aboutOrder) {
  const [from, cure, where] = aboutOrder
    ? ["From the last choices that worked. ", "Change your choices under All steps.", "#bench"]
    : ["From the last sizes that worked. ", "Put the sizes right.", "#measure"];
  if (stale.textContent !== from + cure) stale.replaceChildren(from, h("a", { href: where }, cure));
}

/** @param {State} state */
function render(state) {
  notice.hidden = state.notice === "";
  if (notice.textContent !== state.notice) notice.textContent = state.notice;
  if (state.scenario === null) return;
  // On Measure the remark stands beside its field.
  stale.hidden = !state.stale || state.stage === "measure";
  tellStale(state.aboutOrder);
  if (mountedStage !== state.stage) {
    mounted?.leave?.();
    mountedStage = state.stage;
    document.body.dataset.stage = state.stage;
    const root = h("div", { class: `stage stage-${state.stage}` });
    main.replaceChildren(root);
    mounted = STAGES[state.stage].mount(root, app);
    for (const link of document.querySelectorAll("nav a")) {
      const here = link.getAttribute("href") === `#${state.stage}`;
      if (here) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
    scrollTo(0, 0);
  }
  mounted?.update(state);
}

document.querySelector(".skip")?.addEventListener("click", (event) => {
  // The hash names the stage, so this link must not change it.
  event.preventDefault();
  main.focus();
});
store.subscribe(render);
start();
