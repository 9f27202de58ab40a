// Wiring: which stage is shown, where the scenario comes from, when it is planned anew.
import { h } from "./dom.js";
import * as engine from "./engine.js";
import { Picture } from "./picture.js";
import { forget, keep, lastUsed, recall } from "./progress.js";
import { withValue } from "./scenario.js";
import { createStore } from "./store.js";
import { stage as bench } from "./stages/bench.js";
import { stage as cut } from "./stages/cut.js";
import { stage as install } from "./stages/install.js";
import { stage as measure } from "./stages/measure.js";
import { stage as size } from "./stages/size.js";

/** @typedef {import("./types").State} State */
/** @typedef {import("./types").StageName} StageName */
/** @typedef {import("./types").Json} Json */

/** @type {Record<StageName, import("./types").Stage>} */
const STAGES = { measure, size, cut, bench, install };
/** Planning follows typing after a breath, so that `1` on the way to `18` is not planned. */
const BREATH_MS = 150;

const main = /** @type {HTMLElement} */ (document.getElementById("main"));
const spoken = /** @type {HTMLElement} */ (document.getElementById("spoken"));
const notice = /** @type {HTMLElement} */ (document.getElementById("notice"));
const darkly = matchMedia("(prefers-color-scheme: dark)");
const calmly = matchMedia("(prefers-reduced-motion: reduce)");

/** @returns {StageName} */
function stageInHash() {
  const name = location.hash.slice(1);
  return name in STAGES ? /** @type {StageName} */ (name) : "measure";
}

window.jointwise = { outcome: null, step: 1, motion: "rest" };

/** @type {ReturnType<typeof createStore<State>>} */
const store = createStore(
  /** @type {State} */ ({
    stage: stageInHash(),
    scenario: null,
    shape: 0,
    example: "",
    examples: [],
    outcome: null,
    plan: null,
    stale: false,
    step: 1,
    notice: "Getting the planner ready.",
    dark: darkly.matches,
    reduced: calmly.matches,
  }),
);

const picture = new Picture({
  createView: engine.createView,
  stepSvg: (n) => engine.exportFile(`step-svg:${n}`),
  onMotion: (motion) => (window.jointwise.motion = motion),
});

let timer = 0;

/** Plans the scenario as it stands. A failed plan leaves the last good one in place. */
function rebuild() {
  clearTimeout(timer);
  timer = 0;
  const { scenario, plan, step } = store.get();
  if (scenario === null) return;
  const outcome = engine.build(JSON.stringify(scenario));
  const fresh = outcome.plan;
  const steps = fresh?.steps.filter((one) => one.stage === "bench") ?? [];
  const kept = fresh && !steps.some((one) => one.n === step) ? (steps.at(-1)?.n ?? 1) : step;
  window.jointwise.outcome = outcome;
  window.jointwise.step = kept;
  if (fresh) picture.load(fresh, store.get().dark, store.get().reduced);
  store.set({ outcome, plan: fresh ?? plan, stale: fresh === null && plan !== null, step: kept });
  if (fresh && store.get().stage === "bench") showStep(false);
}

/** @param {boolean} move */
function showStep(move) {
  const { plan, step } = store.get();
  const found = plan?.steps.find((one) => one.n === step);
  if (found) picture.show(found.n, found.text, move);
}

/** Writes down where the maker is. */
function save() {
  const { scenario, example, stage, step } = store.get();
  if (scenario !== null) keep(example, { scenario: JSON.stringify(scenario), stage, step });
}

/**
 * Takes a scenario in as a whole.
 * @param {Json} scenario
 * @param {string} example
 * @param {number} step
 */
function take(scenario, example, step) {
  const address = new URL(location.href);
  if (example) address.searchParams.set("scenario", example);
  else address.searchParams.delete("scenario");
  history.replaceState(null, "", address);
  store.set({ scenario, example, step, plan: null, outcome: null, stale: false, notice: "", shape: store.get().shape + 1 });
  rebuild();
  save();
}

/**
 * @param {string} name
 * @returns {Promise<Json>}
 */
async function fetchExample(name) {
  const answer = await fetch(new URL(`./scenarios/${encodeURIComponent(name)}.json`, import.meta.url));
  if (!answer.ok) throw new Error(`${answer.status}`);
  return answer.json();
}

/** @type {import("./types").App} */
const app = {
  picture,
  state: store.get,
  exportFile: engine.exportFile,
  edit(path, value) {
    const scenario = store.get().scenario;
    store.set({ scenario: withValue(scenario, path, value) });
    save();
    clearTimeout(timer);
    timer = window.setTimeout(rebuild, BREATH_MS);
  },
  reshape(change) {
    const scenario = store.get().scenario;
    const copy = scenario !== null && typeof scenario === "object" && !Array.isArray(scenario) ? { ...scenario } : {};
    change(copy);
    store.set({ scenario: copy, shape: store.get().shape + 1 });
    save();
    rebuild();
  },
  async loadExample(name) {
    try {
      const kept = recall(name);
      take(kept ? JSON.parse(kept.scenario) : await fetchExample(name), name, kept?.step ?? 1);
    } catch (error) {
      console.error(error);
      store.set({ notice: `The example “${name}” cannot be fetched. Choose another, or open a file of your own.` });
    }
  },
  async openFile(file) {
    const text = await file.text();
    try {
      take(JSON.parse(text), "", 1);
    } catch {
      const first = engine.build(text).findings[0];
      const said = first ? `${first.message} ${first.hint}` : "It is not a scenario file.";
      store.set({ notice: `${file.name} was not opened. ${said} What you had is still here.` });
    }
  },
  async startAgain() {
    const { example, examples } = store.get();
    const name = example || (examples[0]?.file ?? "").replace(/\.json$/, "");
    if (!confirm("Put the example's own sizes back? What you typed here goes. Save it to a file first if you need it.")) return;
    forget(example);
    await app.loadExample(name);
  },
  goStep(n, move) {
    const { plan } = store.get();
    const steps = plan?.steps.filter((one) => one.stage === "bench") ?? [];
    const found = steps.findIndex((one) => one.n === n);
    const step = steps[found];
    if (!step) return;
    const changed = n !== store.get().step;
    window.jointwise.step = n;
    store.set({ step: n });
    showStep(move);
    if (changed) {
      spoken.textContent = `Step ${found + 1} of ${steps.length}: ${step.text}`;
      save();
    }
  },
};

/** @type {import("./types").Mounted | null} */
let mounted = null;
/** @type {StageName | null} */
let mountedStage = null;

/** @param {State} state */
function render(state) {
  notice.hidden = state.notice === "";
  if (notice.textContent !== state.notice) notice.textContent = state.notice;
  if (state.scenario === null) return;
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

async function start() {
  store.subscribe(render);
  document.querySelector(".skip")?.addEventListener("click", (event) => {
    // The hash names the stage, so this link must not change it.
    event.preventDefault();
    main.focus();
  });
  addEventListener("hashchange", () => {
    store.set({ stage: stageInHash() });
    save();
    if (store.get().stage === "bench") showStep(false);
  });
  const theme = () => {
    store.set({ dark: darkly.matches, reduced: calmly.matches });
    picture.theme(darkly.matches, calmly.matches);
  };
  darkly.addEventListener("change", theme);
  calmly.addEventListener("change", theme);

  try {
    await engine.start();
  } catch (error) {
    console.error(error);
    store.set({ notice: "The planner cannot be loaded. Load the page again; what you typed is kept." });
    return;
  }
  try {
    const answer = await fetch(new URL("./scenarios/index.json", import.meta.url));
    if (answer.ok) store.set({ examples: await answer.json() });
  } catch (error) {
    // The page works without examples: a file of one's own may be opened.
    console.error(error);
  }
  const asked = new URL(location.href).searchParams.get("scenario");
  const last = lastUsed();
  const first = (store.get().examples[0]?.file ?? "").replace(/\.json$/, "");
  const name = asked ?? last ?? first;
  const kept = recall(name);
  if (!location.hash && kept && kept.stage in STAGES) history.replaceState(null, "", `#${kept.stage}`);
  store.set({ stage: stageInHash() });
  if (name === "" && kept) take(JSON.parse(kept.scenario), "", kept.step);
  else await app.loadExample(name || first);
  if (store.get().scenario === null) take({ format: "jointwise-scenario/1" }, "", 1);
  if (store.get().stage === "bench") showStep(false);
}

start();
