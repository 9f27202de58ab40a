// The folded groups of Measure: what a tape finds once the gap is no box.
import { h } from "./dom.js";
import { leavingOut, pruning, relist } from "./editing.js";
import { choice, field, groupRemark, remover } from "./scenario-form.js";
import { listOf, valueAt, withValue } from "./scenario.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Json} Json */
/** @typedef {import("./types").Path} Path */
/** @typedef {import("./scenario-form.js").Field} Field */
/** @typedef {[string, string][]} Options */

/** @type {Options} */
const SIDES = [["left", "left"], ["middle", "middle"], ["right", "right"]];
/** @type {Options} */
const LEANS = [["in", "its top leans in"], ["out", "its top leans out"]];
/** @type {Options} */
const FLOORS = [["rises", "it rises"], ["falls", "it falls"]];
/** @type {{ path: Path, name: string, ways: Options, ends: [string, string] }[]} */
const SLOPES = [
  { path: ["space", "walls", "left"], name: "Left wall, from the floor up", ways: LEANS, ends: ["Plumb line to its foot", "to its top"] },
  { path: ["space", "walls", "right"], name: "Right wall, from the floor up", ways: LEANS, ends: ["Plumb line to its foot", "to its top"] },
  { path: ["space", "walls", "back"], name: "Wall behind, from the floor up", ways: LEANS, ends: ["Plumb line to its foot", "to its top"] },
  { path: ["space", "floor", "across"], name: "Floor, left to right", ways: FLOORS, ends: ["Level line to floor, left", "right"] },
  { path: ["space", "floor", "along"], name: "Floor, front to back", ways: FLOORS, ends: ["Level line to floor, front", "back"] },
];
/** @type {Options} */
const KINDS = [["baseboard", "baseboard"], ["pipe", "pipe"], ["outlet", "outlet"], ["vent", "vent"], ["other", "something else"]];

/** Which groups the maker has open: they stay so while the form is built anew. @type {Map<string, boolean>} */
const open = new Map();

/**
 * A group that is folded until it is wanted.
 * @param {string} name
 * @param {string} says what stands in it, beside its name
 * @param {boolean} first whether it begins open
 * @param {...(Node | null)} kids
 */
export function fold(name, says, first, ...kids) {
  const element = h(
    "details",
    { class: "more", open: open.get(name) ?? first, ontoggle: () => open.set(name, element.open) },
    h("summary", {}, h("span", {}, name, says ? h("span", { class: "quiet" }, ` ${says}`) : null)),
    ...kids,
  );
  return element;
}

/** @param {number} n @param {string} one @param {string} many */
export const counted = (n, one, many) => (n === 0 ? "" : n === 1 ? `1 ${one}` : `${n} ${many}`);

/**
 * How far out of plumb or level, by a level and its gap or by two distances.
 * @param {App} app
 * @param {(made: Field) => HTMLElement} add
 * @param {typeof SLOPES[number]} what
 */
function slope(app, add, { path, name, ways, ends }) {
  const has = (/** @type {string} */ which) => valueAt(app.state().scenario, [...path, which]) !== undefined;
  const length = (/** @type {string} */ which, /** @type {string} */ label, placeholder = "") => add(field(app, { path: [...path, which], label, type: "length", placeholder }));
  const two = has("first") || has("second");
  const other = () =>
    app.reshape((scenario) => {
      const over = valueAt(scenario, [...path, "over"]) ?? "";
      /** @type {Json} */
      const fresh = two ? { over, gap: "0" } : { over, first: "0", second: "0" };
      Object.assign(scenario, /** @type {object} */ (withValue(scenario, path, fresh)));
    });
  return h(
    "div",
    { class: "thing-block", role: "group", "aria-label": name },
    h("p", { class: "block-name" }, name),
    h(
      "div",
      { class: "row" },
      length("over", two ? "From one to the other" : "Level's length"),
      ...(two
        ? [length("first", ends[0]), length("second", ends[1])]
        : [length("gap", "Gap at its end", "0"), add(choice(app, { path: [...path, "way"], label: "Which way", options: ways }))]),
    ),
    h(
      "div",
      { class: "buttons" },
      h("button", { type: "button", class: "plain", onclick: other }, two ? "A level instead" : "Two distances instead"),
      remover(() => app.reshape((scenario) => Object.assign(scenario, withValue(scenario, path, undefined))), name),
    ),
    add(groupRemark(path)),
  );
}

/**
 * Asks which wall or floor is out; its entries follow.
 * @param {App} app
 */
function adder(app) {
  const select = h(
    "select",
    {
      id: "add-slope",
      onchange: () => {
        const what = SLOPES.find(({ name }) => name === select.value);
        if (what) app.reshape((scenario) => Object.assign(scenario, withValue(scenario, what.path, { gap: "0" })));
      },
    },
    h("option", { value: "" }, "choose a wall or the floor"),
    ...SLOPES.filter(({ path }) => valueAt(app.state().scenario, path) === undefined).map(({ name }) => h("option", { value: name }, name)),
  );
  return h("div", { class: "field" }, h("label", { for: "add-slope" }, "Out of plumb or level"), select);
}

/**
 * Rows of one kind of reading, and a button for another.
 * @param {App} app
 * @param {string} list
 * @param {string} what
 * @param {Json} fresh
 * @param {(i: number) => (Node | null)[]} row
 */
function rows(app, list, what, fresh, row) {
  /** @type {["space", string]} */
  const path = ["space", list];
  const count = listOf(valueAt(app.state().scenario, path)).length;
  return [
    ...Array.from({ length: count }, (_, i) =>
      h("div", { class: "row" }, ...row(i), remover(() => relist(app, path, leavingOut(i)), `${what} ${i + 1}`)),
    ),
    h("button", { type: "button", class: "plain", onclick: () => relist(app, path, (all) => [...all, fresh]) }, `Add a ${what}`),
  ];
}

/**
 * Heights, depths, diagonals, and how walls and floor lean.
 * @param {App} outer
 * @param {(made: Field) => HTMLElement} add
 */
export function wavy(outer, add) {
  const app = pruning(outer);
  const length = (/** @type {Path} */ path, /** @type {string} */ label, placeholder = "") => add(field(app, { path, label, type: "length", placeholder }));
  const side = (/** @type {Path} */ path) => add(choice(app, { path, label: "at the", options: SIDES }));
  const said = ["heights", "depths", "diagonals", "walls"].filter((name) => valueAt(app.state().scenario, ["space", name]) !== undefined);
  return fold(
    "Not quite a box",
    said.length > 0 ? said.join(", ") : "leaning walls, sloping floor, diagonals",
    false,
    h("p", { class: "hint" }, "The drawing shows each entry as you type it; leans are drawn three times as great."),
    h(
      "div",
      { class: "row" },
      ...listOf(valueAt(app.state().scenario, ["space", "widths"])).map((_, i) =>
        add(choice(app, { path: ["space", "widths", i, "from"], label: `Width ${i + 1} taken at the`, options: [["", "front"], ["back", "back"]] })),
      ),
    ),
    ...rows(app, "heights", "height", { side: "left" }, (i) => [length(["space", "heights", i, "height"], `Height ${i + 1}`), side(["space", "heights", i, "side"])]),
    ...rows(app, "depths", "depth", { side: "left" }, (i) => [
      length(["space", "depths", i, "depth"], `Depth ${i + 1}`),
      length(["space", "depths", i, "at"], "at height", "0"),
      side(["space", "depths", i, "side"]),
    ]),
    h(
      "div",
      { class: "row" },
      length(["space", "diagonals", "rising"], "Diagonal, lower left to upper right"),
      length(["space", "diagonals", "falling"], "Diagonal, upper left to lower right"),
    ),
    add(groupRemark(["space", "diagonals"])),
    ...SLOPES.filter(({ path }) => valueAt(app.state().scenario, path) !== undefined).map((one) => slope(app, add, one)),
    adder(app),
    add(groupRemark(["space", "walls"])),
  );
}

/**
 * What stands in the gap.
 * @param {App} outer
 * @param {(made: Field) => HTMLElement} add
 */
export function inTheWay(outer, add) {
  const app = pruning(outer);
  /** @type {["space", string]} */
  const path = ["space", "obstacles"];
  const count = listOf(valueAt(app.state().scenario, path)).length;
  const blocks = Array.from({ length: count }, (_, i) => {
    const at = [...path, i];
    const three = (/** @type {string} */ name, /** @type {[string, string, string]} */ labels) =>
      h("div", { class: "row" }, ...labels.map((label, axis) => add(field(app, { path: [...at, name, axis], label, type: "length" }))));
    return h(
      "div",
      { class: "thing-block", role: "group", "aria-label": `Obstacle ${i + 1}` },
      h(
        "div",
        { class: "row" },
        add(choice(app, { path: [...at, "kind"], label: "What it is", options: KINDS })),
        add(field(app, { path: [...at, "clear"], label: "Stay clear by", type: "length", placeholder: "0" })),
        remover(() => relist(app, path, leavingOut(i)), `obstacle ${i + 1}`),
      ),
      three("at", ["From the left", "From the front", "From the floor"]),
      three("size", ["Wide", "Deep", "High"]),
      add(groupRemark(at)),
    );
  });
  const fresh = { kind: "baseboard", at: ["0", "0", "0"], size: ["0", "0", "0"] };
  return fold(
    "In the way",
    counted(count, "thing", "things") || "baseboard, pipe, outlet, vent",
    false,
    h("p", { class: "hint" }, "Measure to its left, front, lower corner: from the left wall, the front line and the floor."),
    ...blocks,
    h("button", { type: "button", class: "plain", onclick: () => relist(app, path, (all) => [...all, fresh]) }, "Add an obstacle"),
  );
}

/**
 * What the finished piece must pass.
 * @param {App} outer
 * @param {(made: Field) => HTMLElement} add
 */
export function wayIn(outer, add) {
  const app = pruning(outer);
  const count = listOf(valueAt(app.state().scenario, ["space", "passages"])).length;
  return fold(
    "The way in",
    counted(count, "passage", "passages") || "door, stair, bend",
    false,
    h("p", { class: "hint" }, "Of a stair, the height is the headroom square to the steps."),
    ...rows(app, "passages", "passage", { name: "door" }, (i) => {
      const at = (/** @type {string} */ name) => ["space", "passages", i, name];
      return [
        add(field(app, { path: at("name"), label: "What it is", type: "text" })),
        add(field(app, { path: at("width"), label: "Clear width", type: "length" })),
        add(field(app, { path: at("height"), label: "Clear height", type: "length" })),
        add(field(app, { path: at("turn"), label: "Width behind a bend", type: "length", placeholder: "straight on" })),
        add(groupRemark(["space", "passages", i])),
      ];
    }),
  );
}
