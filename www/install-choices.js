// What the maker decides about fixing the piece in its room.
import { h } from "./dom.js";
import { choice, field } from "./scenario-form.js";
import { listOf, typed, valueAt } from "./scenario.js";
import { w } from "./words.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").State} State */

/** What stands in one box, several lengths with commas between, and a list in the file.
 * @param {App} app */
function studs(app) {
  const path = ["install", "studs"];
  const written = listOf(valueAt(app.state().scenario, path)).map(typed).join("; ");
  const input = h("input", {
    id: "f-install-studs",
    type: "text",
    class: "words",
    autocomplete: "off",
    value: written,
    oninput: () => {
      // A comma may stand within a number.
      const all = input.value.split(/[;\n]|,\s/).map((one) => one.trim()).filter(Boolean);
      app.edit(path, all.length > 0 ? all : undefined);
    },
  });
  const hint = w.install.studsHint;
  return h(
    "div",
    { class: "field" },
    h("label", { for: input.id }, w.install.studs),
    h("span", { class: "box" }, input),
    h("span", { class: "hint", id: "f-install-studs-hint" }, hint),
  );
}

/**
 * @param {App} app
 * @returns {{ element: HTMLElement, update(state: State): void }}
 */
export function installChoices(app) {
  const at = (/** @type {string[]} */ ...path) => ["install", ...path];
  const length = (/** @type {string[]} */ path, /** @type {string} */ label, hint = "", placeholder = "") =>
    field(app, { path: at(...path), label, type: "length", hint, placeholder });
  const wall = choice(app, {
    path: at("to_wall"),
    label: w.install.wall,
    options: [["", w.install.open], [true, w.install.yes], [false, w.install.no]],
  });
  const rail = choice(app, {
    path: at("rail"),
    label: w.install.rail,
    hint: w.install.railHint,
    options: [["", w.install.no], [true, w.install.yes]],
  });
  const first = [wall, rail];
  const more = [
    length(["wall_board"], w.install.board, w.install.boardHint),
    length(["counter"], w.install.counter, w.install.counterHint),
    length(["height"], w.install.height, w.install.heightHint),
    length(["level"], w.install.level, w.install.levelHint),
  ];
  const corners = [
    length(["corners", "front_left"], w.install.corners.front_left),
    length(["corners", "front_right"], w.install.corners.front_right),
    length(["corners", "rear_left"], w.install.corners.rear_left),
    length(["corners", "rear_right"], w.install.corners.rear_right),
  ];
  const all = [...first, ...more, ...corners];
  return {
    element: h(
      "div",
      { class: "install-choices" },
      ...first.map((one) => one.element),
      studs(app),
      ...more.map((one) => one.element),
      h("h3", {}, w.install.floor),
      h("p", { class: "quiet" }, w.install.floorHint),
      h("div", { class: "install-corners" }, ...corners.map((one) => one.element)),
    ),
    update(state) {
      for (const one of all) one.update(state);
    },
  };
}
