// The state of the page, and all that changes it: typing, files, examples, steps.
import { NO_TICKS, cuttingOf } from "./cutting.js";
import { draft } from "./engine.js";
import { createHistory } from "./history.js";
import { keepOffline } from "./offline.js";
import { begin, fetchExample, fetchList, fetchPlanned, openCarried, stageInHash } from "./opening.js";
import { Picture } from "./picture.js";
import { benchSteps } from "./plan.js";
import * as planner from "./planner.js";
import { exampleOf, forget, keep, recall, setAside, takeBack } from "./progress.js";
import { LONGEST, exampleName, exampleNamed, keyOf, parse, sectionOf, withValue, withoutEmpty } from "./scenario.js";
import { isDark, settings } from "./settings.js";
import { carried } from "./share/link.js";
import { createStore } from "./store.js";
import { whenElsewhere } from "./stored.js";
import { createView, ready as pictureReady } from "./view.js";
import { w } from "./words.js";

/** @typedef {import("./types").State} State */
/** @typedef {import("./types").Json} Json */

/** Planning follows typing after a breath, so that `1` on the way to `18` is not planned. */
const BREATH_MS = 150;

/** The planner waits for the first picture no longer than this. */
const QUIET_MS = 3000;

const spoken = /** @type {HTMLElement} */ (document.getElementById("spoken"));
const darkly = matchMedia("(prefers-color-scheme: dark)");
const calmly = matchMedia("(prefers-reduced-motion: reduce)");

window.jointwise = { outcome: null, step: 1, motion: "rest", planner: "waits" };

/** @type {ReturnType<typeof createStore<State>>} */
export const store = createStore(
  /** @type {State} */ ({
    stage: stageInHash(),
    scenario: null,
    shape: 0,
    example: "",
    examples: [],
    outcome: null,
    draft: null,
    history: { undo: 0, redo: 0 },
    plan: null,
    stale: false,
    planning: false,
    aboutOrder: false,
    step: 1,
    cutting: null,
    search: { searched: 0, of: 0, running: false, more: true },
    ticks: NO_TICKS,
    notice: w.page.starting,
    dark: isDark(),
    reduced: calmly.matches,
    offline: false,
    newer: false,
    kept: "device",
    aside: false,
  }),
);

const picture = new Picture({
  ready: pictureReady,
  createView,
  stepSvg: (n) => exportFile(`${store.get().stage === "install" ? "room" : "step"}-svg:${n}`),
  onMotion: (motion) => (window.jointwise.motion = motion),
});

const cutting = cuttingOf(store, { good: () => good, save: () => save(), reshape: (change) => app.reshape(change) });

const changes = createHistory();
let timer = 0;
/** Whether the next plan is to be shown from its first step. */
let afresh = false;
/** How many scenarios have been taken in as a whole: an answer to an earlier one comes too late. */
let taken = 0;
/** Text of the last scenario that gave a plan. */
let good = "";
/** Plans of examples that the host has made already, by the text that they are of.
 * @type {Map<string, import("./types").Outcome>} */
const planned = new Map();
/** Ticks that were kept, and the text of the scenario whose plan they belong to. */
let keptTicks = { text: "", ticks: NO_TICKS };

/** Plans the scenario as it stands. A failed plan leaves the last good one in place. */
async function rebuild() {
  clearTimeout(timer);
  timer = 0;
  const { scenario } = store.get();
  if (scenario === null) return;
  const text = JSON.stringify(scenario);
  const outcome = planned.get(text) ?? (await planner.planTyped(text));
  // What was typed meanwhile makes this answer stale; its own plan is on the way.
  if (outcome === null || scenario !== store.get().scenario) return;
  settle(text, outcome);
}

/**
 * Shows what came of a scenario.
 * @param {string} text
 * @param {import("./types").Outcome} outcome
 */
function settle(text, outcome) {
  const { plan, step } = store.get();
  const fresh = outcome.plan;
  const same = text === good;
  if (fresh) good = text;
  const steps = benchSteps(fresh);
  const first = fresh && afresh ? steps[0]?.n : undefined;
  if (fresh) afresh = false;
  const kept = first ?? (fresh && !steps.some((one) => one.n === step) ? (steps.at(-1)?.n ?? 1) : step);
  window.jointwise.step = kept;
  if (fresh) draw(fresh);
  const ticks = same ? store.get().ticks : text === keptTicks.text ? keptTicks.ticks : NO_TICKS;
  // In one: a stage must not see the new plan beside the old one's layout.
  store.set({ outcome, plan: fresh ?? plan, stale: fresh === null && plan !== null, planning: false, step: kept, ...(fresh ? cutting.of(fresh, ticks) : {}) });
  if (fresh) cutting.look();
  if (fresh && store.get().stage === "bench") showStep(false);
  window.jointwise.outcome = outcome;
  save();
}

/** Gives the picture what the stage shows: on Install the plan for the room, if there is one.
 * @param {import("./types").Plan} plan */
function draw(plan) {
  picture.load((store.get().stage === "install" && plan.install) || plan, isDark(), calmly.matches);
}

/** Sizes and parts of the scenario as it stands, for the stage that shows them. */
function size() {
  const { scenario, stage } = store.get();
  if (stage === "size" && scenario !== null) store.set({ draft: draft(JSON.stringify(scenario)) });
}

/**
 * A file of the plan shown, which may be older than what is typed.
 * @param {string} kind
 */
const exportFile = async (kind) => (good === "" ? undefined : planner.exportFile(good, kind, store.get().search.searched));

/** @param {boolean} move */
function showStep(move) {
  const { plan, step } = store.get();
  const found = plan?.steps.find((one) => one.n === step);
  if (found) picture.show(found.n, found.text, move);
}

/**
 * Shows another scenario in place of this one: sizes at once, the plan when it comes.
 * @param {Json} scenario
 * @param {Partial<State>} [more]
 */
function show(scenario, more = {}) {
  const sized = store.get().stage === "size" ? draft(JSON.stringify(scenario)) : null;
  store.set({ scenario, draft: sized, planning: true, history: changes.counts, ...more });
  save();
}

/** Writes down where the maker is. */
function save() {
  const { scenario, example, stage, step, ticks } = store.get();
  if (scenario === null) return;
  const text = JSON.stringify(scenario);
  const kept = keep(example, { scenario: text, good: good === text ? "" : good, stage, step, ticks });
  if (kept !== store.get().kept) store.set({ kept });
}

/** Another tab has the same piece open and changed it: what it wrote must not be written over.
 * @param {string} example */
function follow(example) {
  const { scenario, step } = store.get();
  if (example !== store.get().example || scenario === null || timer !== 0) return;
  const theirs = recall(example);
  if (theirs === null || theirs.scenario === JSON.stringify(scenario)) return;
  store.set({ notice: w.page.elsewhere });
  take(JSON.parse(theirs.scenario), example, step, theirs.good, w.page.elsewhere);
}

/**
 * Takes a scenario in as a whole.
 * @param {Json} scenario
 * @param {string} example
 * @param {number} [step]
 * @param {string} [before] an earlier text of it, whose plan holds while this one gives none
 * @param {string} [notice] what is to be said with it
 * @param {import("./types").Ticks} [ticks] what was ticked off at the saw
 */
async function take(scenario, example, step = 1, before = "", notice = "", ticks = NO_TICKS) {
  taken += 1;
  const mine = taken;
  afresh = false;
  // What is planned below need not be planned twice.
  const plan = before === "" || before === JSON.stringify(scenario) ? null : (await planner.plan(before)).plan;
  if (mine !== taken) return;
  const address = new URL(location.href);
  if (example) address.searchParams.set("scenario", example);
  else address.searchParams.delete("scenario");
  history.replaceState(null, "", address);
  good = plan ? before : "";
  changes.forget();
  keptTicks = { text: plan ? before : JSON.stringify(scenario), ticks };
  if (plan) draw(plan);
  store.set({ scenario, example, step, plan, ...cutting.of(plan, plan ? ticks : NO_TICKS), outcome: null, draft: null, history: changes.counts, stale: false, planning: true, aboutOrder: false, notice, shape: store.get().shape + 1 });
  cutting.look();
  size();
  await rebuild();
}

/**
 * Takes in what came from outside. The file that was open before is set aside, not written over.
 * @param {Json} scenario
 * @param {number} step
 * @param {string} notice
 */
async function takeOwn(scenario, step, notice) {
  const other = setAside(JSON.stringify(scenario));
  await take(scenario, "", step, "", notice);
  if (other) store.set({ aside: true });
}

/**
 * To a scenario that was there before.
 * @param {Json | undefined} scenario
 */
function restore(scenario) {
  if (scenario === undefined) return;
  show(scenario, { shape: store.get().shape + 1, aboutOrder: false });
  rebuild();
}

/** @type {import("./types").App} */
export const app = {
  picture,
  state: store.get,
  exportFile,
  exportModel: async () => (good === "" ? undefined : planner.model(good)),
  remedy: async (question) => (good === "" ? undefined : planner.remedy(good, question)),
  notice: (text) => store.set({ notice: text }),
  say: (text) => void (spoken.textContent = text),
  showBefore(n) {
    const { plan } = store.get();
    const steps = benchSteps(plan);
    const before = steps[steps.findIndex((one) => one.n === n) - 1];
    if (before) picture.show(before.n, w.bench.before, false);
    else picture.finished(w.bench.whole);
  },
  edit(path, value) {
    const scenario = store.get().scenario;
    const aboutOrder = path[0] === "order";
    if (aboutOrder) afresh = true;
    changes.note(scenario, keyOf(path));
    show(withoutEmpty(withValue(scenario, path, value), "order"), { aboutOrder });
    clearTimeout(timer);
    timer = window.setTimeout(rebuild, BREATH_MS);
  },
  reshape(change) {
    const scenario = store.get().scenario;
    const copy = sectionOf(scenario);
    change(copy);
    changes.note(scenario, "");
    show(copy, { shape: store.get().shape + 1, aboutOrder: false });
    rebuild();
  },
  undo() {
    restore(changes.undo(store.get().scenario));
  },
  redo() {
    restore(changes.redo(store.get().scenario));
  },
  async loadExample(name) {
    try {
      const kept = recall(name);
      const made = exampleNamed(store.get().examples, name)?.planned ? await fetchPlanned(name) : null;
      if (made) planned.set(made.scenario, made.outcome);
      if (kept) await take(JSON.parse(kept.scenario), name, kept.step, kept.good, "", kept.ticks);
      else await take(made ? JSON.parse(made.scenario) : await fetchExample(name), name);
    } catch (error) {
      console.error(error);
      store.set({ notice: w.page.noExample(name) });
    }
  },
  async openFile(file) {
    const refuse = (/** @type {string} */ why) => store.set({ notice: w.page.notOpened(file.name, why) });
    // Asked before it is read: it might not fit into the memory.
    if (file.size > LONGEST) return refuse(w.page.tooLarge(Math.ceil(file.size / 1_000_000), LONGEST / 1_000_000));
    let text;
    try {
      text = await file.text();
    } catch {
      return refuse(w.page.unreadable);
    }
    /** @type {Json} */
    let scenario;
    try {
      scenario = parse(text);
    } catch {
      const [first] = (await planner.plan(text)).findings;
      return refuse(first ? `${first.message} ${first.hint}` : w.page.noScenario);
    }
    await takeOwn(scenario, 1, "");
  },
  async backToAside() {
    const kept = takeBack();
    store.set({ aside: false });
    if (kept) await take(JSON.parse(kept.scenario), "", kept.step, kept.good);
  },
  async startAgain() {
    const { example, examples } = store.get();
    const name = example || exampleName(examples[0]);
    if (!confirm(w.page.startAgain)) return;
    forget(example);
    await app.loadExample(name);
  },
  searchOn: (on) => cutting.searchOn(on),
  tickStep: (n, done) => cutting.tickStep(n, done),
  tickSpoiled: (part, spoiled) => cutting.tickSpoiled(part, spoiled),
  planTheRest: () => cutting.planTheRest(),
  goStep(n, move) {
    const { plan } = store.get();
    const steps = benchSteps(plan);
    const found = steps.findIndex((one) => one.n === n);
    const step = steps[found];
    if (!step) return;
    const changed = n !== store.get().step;
    window.jointwise.step = n;
    store.set({ step: n });
    showStep(move);
    if (changed) {
      spoken.textContent = w.page.stepSaid(found + 1, steps.length, step.text);
      save();
    }
  },
};

const hands = { store, take, takeOwn, loadExample: app.loadExample };

/**
 * Starts what listens, shows what there is to show, and fetches the planner behind it.
 * @param {Promise<void>} stage settled once the first stage is on the page
 */
export async function start(stage) {
  addEventListener("hashchange", () => {
    if (carried(location.hash)) {
      void openCarried(hands);
      return;
    }
    store.set({ stage: stageInHash() });
    size();
    save();
    cutting.look();
    if (store.get().stage === "bench") showStep(false);
  });
  const theme = () => {
    if (isDark() === store.get().dark && calmly.matches === store.get().reduced) return;
    store.set({ dark: isDark(), reduced: calmly.matches });
    picture.theme(isDark(), calmly.matches);
  };
  darkly.addEventListener("change", theme);
  calmly.addEventListener("change", theme);
  settings.subscribe(theme);
  whenElsewhere((key) => {
    const example = exampleOf(key);
    if (example !== null) follow(example);
  });
  planner.whenRestarted(() => store.set({ notice: w.page.restarted }));
  void pictureReady();
  await begin(hands, fetchList());
  // A page that nobody looks at draws nothing, and still plans.
  await Promise.race([stage.then(() => picture.quiet()), new Promise((done) => setTimeout(done, QUIET_MS))]);
  await startPlanner();
  // After the planner, so that the two do not share a poor network.
  keepOffline({ kept: () => store.set({ offline: true }), newer: () => store.set({ newer: true }) });
}

/** The planner is four times the rest: it comes when the first plan, if there is one already, is shown. */
async function startPlanner() {
  try {
    await planner.ready();
    window.jointwise.planner = "runs";
    size();
  } catch (error) {
    console.error(error);
    window.jointwise.planner = "fails";
    store.set({ notice: w.page.noPlanner });
  }
}
