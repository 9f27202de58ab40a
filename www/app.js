// Shows the stage that the address names, from the state.
import { h } from "./dom.js";
import { loadNewer } from "./offline.js";
import { app, start, store } from "./planning.js";
import { takeDrops } from "./share/drops.js";
import { w } from "./words.js";

/** @typedef {import("./types").State} State */
/** @typedef {import("./types").StageName} StageName */

/** Each stage is fetched when it is shown first; those that are not, once the planner runs.
 * @type {Record<StageName, () => Promise<{ stage: import("./types").Stage }>>} */
const STAGES = {
  measure: async () => await import("./stages/measure.js"),
  size: async () => await import("./stages/size.js"),
  cut: async () => await import("./stages/cut.js"),
  bench: async () => await import("./stages/bench.js"),
  install: async () => await import("./stages/install.js"),
  numbers: async () => await import("./stages/numbers.js"),
};

/** The stages that are there.
 * @type {Partial<Record<StageName, import("./types").Stage>>} */
const here = {};

/** The stage that was asked for and did not come: it is not asked for at each change of the state.
 * @type {StageName | null} */
let missing = null;

/** Fetches a stage that is not there yet.
 * @param {StageName} name */
async function fetchStage(name) {
  here[name] ??= (await STAGES[name]()).stage;
}

/** Fetches a stage and shows it, if it is still wanted.
 * @param {StageName} name */
async function bring(name) {
  try {
    await fetchStage(name);
    render(store.get());
  } catch (error) {
    console.info("a stage did not come:", error);
    missing = name;
    store.set({ notice: w.page.noStage });
  }
}

const main = /** @type {HTMLElement} */ (document.getElementById("main"));
const notice = /** @type {HTMLElement} */ (document.getElementById("notice"));
const stale = /** @type {HTMLElement} */ (document.getElementById("stale"));
const newer = /** @type {HTMLElement} */ (document.getElementById("newer"));
const unkept = /** @type {HTMLElement} */ (document.getElementById("unkept"));

/** @type {import("./types").Mounted | null} */
let mounted = null;
/** @type {StageName | null} */
let mountedStage = null;

/** Whether the maker wants to go on with the version that runs. */
let later = false;

/** @param {State} state */
function tellNewer(state) {
  newer.hidden = !state.newer || later;
  if (newer.hidden || newer.childElementCount > 0) return;
  newer.append(
    h("span", {}, w.page.newer),
    h("button", { type: "button", onclick: loadNewer }, w.page.loadNewer),
    h(
      "button",
      {
        type: "button",
        class: "plain",
        onclick: () => {
          later = true;
          newer.hidden = true;
        },
      },
      w.page.later,
    ),
  );
}

const aside = h("p", { class: "stale set-aside", role: "status", hidden: true }, w.page.aside, " ", h("button", { type: "button", onclick: () => app.backToAside() }, w.page.backToAside));
notice.after(aside);

/** @param {State} state */
function tellUnkept({ kept }) {
  unkept.hidden = kept === "device";
  const said = kept === "device" ? "" : kept === "tab" ? w.page.keptInTab : w.page.keptNowhere;
  if (unkept.textContent !== said) unkept.textContent = said;
}

/** What the plan shown is left over from, and where that is put right.
 * @param {boolean} aboutOrder */
function tellStale(aboutOrder) {
  const [from, cure, where] = aboutOrder
    ? [w.page.staleOrder, w.page.changeChoices, "#bench"]
    : [w.page.staleSizes, w.page.fixSizes, "#measure"];
  if (stale.textContent !== `${from} ${cure}`) stale.replaceChildren(`${from} `, h("a", { href: where }, cure));
}

/** @param {State} state */
function render(state) {
  notice.hidden = state.notice === "";
  if (notice.textContent !== state.notice) notice.textContent = state.notice;
  if (state.scenario === null) return;
  // On Measure the remark stands beside its field.
  stale.hidden = !state.stale || state.stage === "measure";
  tellStale(state.aboutOrder);
  tellNewer(state);
  tellUnkept(state);
  aside.hidden = !state.aside;
  if (mountedStage !== state.stage) {
    const coming = here[state.stage];
    if (!coming) {
      // What stands there stays until the other comes.
      if (missing !== state.stage) void bring(state.stage);
      return;
    }
    missing = null;
    mounted?.leave?.();
    mountedStage = state.stage;
    document.body.dataset.stage = state.stage;
    const root = h("div", { class: `stage stage-${state.stage}` });
    main.replaceChildren(root);
    mounted = coming.mount(root, app);
    for (const link of document.querySelectorAll("header a")) {
      const current = link.getAttribute("href") === `#${state.stage}`;
      if (current) {
        link.setAttribute("aria-current", "page");
        link.scrollIntoView({ block: "nearest", inline: "nearest" });
      } else link.removeAttribute("aria-current");
    }
    scrollTo(0, 0);
  }
  mounted?.update(state);
}

for (const link of document.querySelectorAll("nav a")) {
  const name = /** @type {StageName} */ (link.getAttribute("href")?.slice(1));
  link.textContent = w.stages[name];
}
for (const word of document.querySelectorAll(".to-numbers .long")) word.textContent = w.stages.numbers;
document.querySelector(".skip")?.addEventListener("click", (event) => {
  // The hash names the stage, so this link must not change it.
  event.preventDefault();
  main.focus();
});
const skip = document.querySelector(".skip");
if (skip) skip.textContent = w.page.skip;
document.querySelector("nav")?.setAttribute("aria-label", w.page.stages);
takeDrops(app);
store.subscribe(render);
// With the example on its way, the stage it will be shown on comes along.
await start(bring(store.get().stage));
for (const name of /** @type {StageName[]} */ (Object.keys(STAGES))) fetchStage(name).catch((error) => console.info("a stage did not come:", error));
