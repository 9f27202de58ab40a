// The folded groups of Measure: what a tape finds once the gap is no box.
import { h } from "./dom.js";
import { leavingOut, pruning, relist } from "./editing.js";
import { choice, field, groupRemark, remover } from "./scenario-form.js";
import { listOf, valueAt, withValue } from "./scenario.js";
import { w } from "./words.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Json} Json */
/** @typedef {import("./types").Path} Path */
/** @typedef {import("./scenario-form.js").Field} Field */

const { uneven, obstacles, passages } = w;

/** Where each wall and floor is in the file. @type {[keyof typeof uneven.slopes, Path][]} */
const SLOPES = [
  ["left", ["space", "walls", "left"]],
  ["right", ["space", "walls", "right"]],
  ["back", ["space", "walls", "back"]],
  ["across", ["space", "floor", "across"]],
  ["along", ["space", "floor", "along"]],
];

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

/**
 * How far out of plumb or level, by a level and its gap or by two distances.
 * @param {App} app
 * @param {(made: Field) => HTMLElement} add
 * @param {typeof SLOPES[number]} what
 */
function slope(app, add, [which, path]) {
  const { name, first, second } = uneven.slopes[which];
  const ways = Object.entries(path[1] === "floor" ? uneven.floors : uneven.leans);
  const has = (/** @type {string} */ one) => valueAt(app.state().scenario, [...path, one]) !== undefined;
  const length = (/** @type {string} */ one, /** @type {string} */ label, placeholder = "") => add(field(app, { path: [...path, one], label, type: "length", placeholder }));
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
      length("over", two ? uneven.between : uneven.level),
      ...(two
        ? [length("first", first), length("second", second)]
        : [length("gap", uneven.gap, "0"), add(choice(app, { path: [...path, "way"], label: uneven.way, options: ways }))]),
    ),
    h(
      "div",
      { class: "buttons" },
      h("button", { type: "button", class: "plain", onclick: other }, two ? uneven.byLevel : uneven.byTwo),
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
        const [, path] = SLOPES.find(([which]) => which === select.value) ?? [];
        if (path) app.reshape((scenario) => Object.assign(scenario, withValue(scenario, path, { gap: "0" })));
      },
    },
    h("option", { value: "" }, uneven.choose),
    ...SLOPES.filter(([, path]) => valueAt(app.state().scenario, path) === undefined).map(([which]) => h("option", { value: which }, uneven.slopes[which].name)),
  );
  return h("div", { class: "field" }, h("label", { for: "add-slope" }, uneven.add), select);
}

/**
 * Rows of one kind of reading, and a button for another.
 * @param {App} app
 * @param {string} list
 * @param {string} more on the button
 * @param {(n: number) => string} named
 * @param {Json} fresh
 * @param {(i: number) => (Node | null)[]} row
 */
function rows(app, list, more, named, fresh, row) {
  /** @type {["space", string]} */
  const path = ["space", list];
  const count = listOf(valueAt(app.state().scenario, path)).length;
  return [
    ...Array.from({ length: count }, (_, i) =>
      h("div", { class: "row" }, ...row(i), remover(() => relist(app, path, leavingOut(i)), named(i + 1))),
    ),
    h("button", { type: "button", class: "plain", onclick: () => relist(app, path, (all) => [...all, fresh]) }, more),
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
  const side = (/** @type {Path} */ path) => add(choice(app, { path, label: uneven.taken, options: Object.entries(uneven.sides) }));
  const said = Object.entries(uneven.has).filter(([name]) => valueAt(app.state().scenario, ["space", name]) !== undefined).map(([, word]) => word);
  return fold(
    uneven.title,
    said.length > 0 ? said.join(", ") : uneven.none,
    false,
    h("p", { class: "hint" }, uneven.hint),
    h(
      "div",
      { class: "row" },
      ...listOf(valueAt(app.state().scenario, ["space", "widths"])).map((_, i) =>
        add(choice(app, { path: ["space", "widths", i, "from"], label: uneven.widthTaken(i + 1), options: [["", uneven.front], ["back", uneven.back]] })),
      ),
    ),
    ...rows(app, "heights", uneven.addHeight, uneven.theHeight, { side: "left" }, (i) => [length(["space", "heights", i, "height"], uneven.heightNo(i + 1)), side(["space", "heights", i, "side"])]),
    ...rows(app, "depths", uneven.addDepth, uneven.theDepth, { side: "left" }, (i) => [
      length(["space", "depths", i, "depth"], uneven.depthNo(i + 1)),
      length(["space", "depths", i, "at"], uneven.atHeight, "0"),
      side(["space", "depths", i, "side"]),
    ]),
    h(
      "div",
      { class: "row" },
      length(["space", "diagonals", "rising"], uneven.rising),
      length(["space", "diagonals", "falling"], uneven.falling),
    ),
    add(groupRemark(["space", "diagonals"])),
    ...SLOPES.filter(([, path]) => valueAt(app.state().scenario, path) !== undefined).map((one) => slope(app, add, one)),
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
    const three = (/** @type {string} */ name, /** @type {string[]} */ labels) =>
      h("div", { class: "row" }, ...labels.map((label, axis) => add(field(app, { path: [...at, name, axis], label, type: "length" }))));
    return h(
      "div",
      { class: "thing-block", role: "group", "aria-label": obstacles.no(i + 1) },
      h(
        "div",
        { class: "row" },
        add(choice(app, { path: [...at, "kind"], label: obstacles.what, options: Object.entries(obstacles.kinds) })),
        add(field(app, { path: [...at, "clear"], label: obstacles.clear, type: "length", placeholder: "0" })),
        remover(() => relist(app, path, leavingOut(i)), obstacles.theNo(i + 1)),
      ),
      three("at", obstacles.at),
      three("size", obstacles.size),
      add(groupRemark(at)),
    );
  });
  const fresh = { kind: "baseboard", at: ["0", "0", "0"], size: ["0", "0", "0"] };
  return fold(
    obstacles.title,
    count > 0 ? obstacles.count(count) : obstacles.none,
    false,
    h("p", { class: "hint" }, obstacles.hint),
    ...blocks,
    h("button", { type: "button", class: "plain", onclick: () => relist(app, path, (all) => [...all, fresh]) }, obstacles.add),
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
    passages.title,
    count > 0 ? passages.count(count) : passages.none,
    false,
    h("p", { class: "hint" }, passages.hint),
    ...rows(app, "passages", passages.add, passages.theNo, { name: passages.door }, (i) => {
      const at = (/** @type {string} */ name) => ["space", "passages", i, name];
      return [
        add(field(app, { path: at("name"), label: passages.what, type: "text" })),
        add(field(app, { path: at("width"), label: passages.width, type: "length" })),
        add(field(app, { path: at("height"), label: passages.height, type: "length" })),
        add(field(app, { path: at("turn"), label: passages.turn, type: "length", placeholder: passages.straight })),
        add(groupRemark(["space", "passages", i])),
      ];
    }),
  );
}
