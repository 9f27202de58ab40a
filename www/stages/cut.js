// Cut: the sheets, the steps at the saw, the parts, and what to buy.
import { checked, checkedAt } from "../accepting.js";
import { partList, shoppingList } from "../cut-lists.js";
import { sheetList } from "../cut-sheets.js";
import { madeBy, sawSteps } from "../cut-steps.js";
import { stockForm } from "../cut-stock.js";
import { download, fractions, h, refill } from "../dom.js";
import { emptied } from "../empty.js";
import { remark, remarks } from "../remarks.js";
import { CORE, w } from "../words.js";

/** @typedef {import("../types").State} State */

const UNPLACED = ["stock-used-up", "bigger-than-stock", "grain-does-not-fit", "only-scrap-fits", "no-safe-cut", "no-stock"];

/** Remarks about stock, saw and parts without a place.
 * @param {State} state */
const about = ({ outcome }) =>
  (outcome?.findings ?? []).filter(({ where, code }) => /^(shop\.(stock|saw|supplies)|cut\b)/.test(where) || UNPLACED.includes(code));

/** @type {import("../types").Stage} */
export const stage = {
  mount(root, app) {
    const save = (/** @type {string} */ kind, /** @type {string} */ type) => async () => {
      const text = await app.exportFile(kind);
      if (text !== undefined) download(kind, text, type);
    };
    const button = (/** @type {string} */ words, /** @type {string} */ kind, /** @type {string} */ type) => h("button", { type: "button", onclick: save(kind, type) }, words);

    const claim = h("p", { class: "claim", lang: CORE });
    const bar = h("progress", { max: 1, value: 0, "aria-label": w.cut.search });
    const stop = h("button", { type: "button", onclick: () => app.searchOn(!app.state().search.running) }, w.cut.stop);
    const looking = h("div", { class: "looking" }, bar, stop);
    const told = h("div", {});
    const said = h("div", {});
    const stock = h("div", {});
    const spoiled = h("span", {});
    const again = h("div", { class: "again", hidden: true }, remark("note", spoiled, w.cut.kept), h("button", { type: "button", onclick: () => app.planTheRest() }, w.cut.again));
    const drawings = sheetList();
    const steps = sawSteps(app);
    const cautions = h("details", { class: "more" });
    const list = partList(app);
    const parts = h("div", { class: "wide" }, list.element);
    const buy = h("div", { class: "wide" });
    const files = h("div", {});
    const layout = h("section", { "aria-labelledby": "sheets-title" }, h("h2", { id: "sheets-title" }, w.cut.sheets), claim, looking, drawings.element);
    const saw = h("section", { "aria-labelledby": "saw-title" }, h("h2", { id: "saw-title" }, w.cut.saw), cautions, again, steps.element);
    const empty = emptied(w.cut.none, w.cut.coming);
    root.append(
      h("h1", {}, w.stages.cut),
      remark("caution", w.cut.usual),
      told,
      empty.element,
      said,
      stock,
      layout,
      saw,
      parts,
      buy,
      files,
    );

    /** @type {Map<string, unknown>} What is shown. */
    const shown = new Map();
    /** Whether something is other than it was shown. @param {string} name @param {unknown} now */
    const fresh = (name, now) => shown.get(name) !== now && Boolean(shown.set(name, now));
    let shape = -1;
    /** @type {import("../scenario-form.js").Field[]} */
    let fields = [];

    /** @param {State} state */
    function showFiles({ plan, cutting }) {
      const csv = "text/csv";
      const panels = plan?.parts.filter((part) => part.kind === "panel") ?? [];
      if (!fresh("files", JSON.stringify([cutting?.sheets.map(({ n }) => n), panels.map(({ id, name }) => [id, name])]))) return;
      files.replaceChildren(
        h("h2", {}, w.cut.files),
        h(
          "div",
          { class: "buttons" },
          button(w.cut.partList, "parts.csv", csv),
          button(w.cut.stepsText, "steps.txt", "text/plain"),
          button(w.cut.readyList, "ready.csv", csv),
          button(w.cut.wholePlan, "plan.json", "application/json"),
          ...(cutting ? [button(w.cut.whereParts, "cut-parts.csv", csv), button(w.cut.cuts, "cuts.csv", csv), button(w.cut.labels, "labels.html", "text/html")] : []),
        ),
        ...(cutting
          ? [
              h(
                "details",
                { class: "more" },
                h("summary", {}, w.cut.machine),
                remark("caution", w.cut.dxf),
                h("div", { class: "buttons" }, ...cutting.sheets.flatMap(({ n }) => [button(w.cut.fileOf(w.cut.sheet(n), "SVG"), `sheet-${n}.svg`, "image/svg+xml"), button(w.cut.fileOf(w.cut.sheet(n), "DXF"), `sheet-${n}.dxf`, "image/vnd.dxf")])),
                h("div", { class: "buttons" }, ...panels.map((part) => button(w.cut.fileOf(part.name, "DXF"), `part-${part.id}.dxf`, "image/vnd.dxf"))),
              ),
            ]
          : []),
      );
    }

    /** @param {State} state */
    function showLayout({ plan, cutting, ticks }) {
      if (!plan || !cutting) return;
      const made = madeBy(cutting, ticks.done);
      drawings.update(plan, cutting, made);
      steps.update(cutting, ticks.done);
      const n = ticks.spoiled.length;
      again.hidden = ticks.done.length === 0;
      spoiled.textContent = n === 0 ? w.cut.wrong : w.cut.spoiledParts(n);
      if (fresh("claim", cutting.claim)) claim.replaceChildren(fractions(cutting.claim));
      if (fresh("cautions", cutting.cautions)) {
        cautions.replaceChildren(h("summary", {}, w.cut.heed), h("ul", { lang: CORE }, ...cutting.cautions.map((text) => h("li", {}, text))), h("p", { class: "quiet" }, w.install.common));
      }
      if (fresh("shopping", cutting.shopping)) buy.replaceChildren(shoppingList(cutting));
    }

    return {
      update(state) {
        const { plan, cutting, search, ticks } = state;
        const has = plan !== null;
        empty.update(state);
        for (const section of [parts, files]) section.hidden = !has;
        for (const section of [layout, saw, buy]) section.hidden = cutting === null;
        if (shape !== state.shape) {
          shape = state.shape;
          const open = stock.querySelector("details")?.open ?? false;
          const made = stockForm(app);
          fields = made.fields;
          made.element.toggleAttribute("open", open);
          refill(stock, made.element);
        }
        for (const one of fields) one.update(state);
        if (fresh("outcome", state.outcome)) {
          said.replaceChildren(checked(app, checkedAt(state.outcome, "cut"), w.remark.checks) ?? "");
        }
        const findings = about(state);
        if (fresh("findings", JSON.stringify(findings))) told.replaceChildren(findings.length > 0 ? remarks(findings) : "");
        bar.max = search.of || 1;
        bar.value = search.running ? search.searched : bar.max;
        looking.dataset.running = String(search.running);
        const words = search.running ? w.cut.stop : w.cut.look;
        if (stop.textContent !== words) stop.textContent = words;
        const begun = ticks.done.length + ticks.spoiled.length > 0;
        stop.hidden = !search.running && (begun || !search.more);
        bar.hidden = !search.running;
        looking.hidden = stop.hidden;
        const changed = [fresh("plan", plan), fresh("layout", cutting?.sheets), fresh("steps", cutting?.steps), fresh("ticks", ticks)];
        if (changed.includes(true)) {
          list.update(state);
          showFiles(state);
        }
        showLayout(state);
      },
    };
  },
};
