// What the maker decides about fixing the piece in its room.
import { h } from "./dom.js";
import { choice, field } from "./scenario-form.js";
import { listOf, typed, valueAt } from "./scenario.js";

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
  const hint = "From the left end of the opening to the middle of each, with a semicolon between. Empty: taken to stand evenly.";
  return h(
    "div",
    { class: "field" },
    h("label", { for: input.id }, "Studs in the wall"),
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
    label: "Fix it to the wall",
    options: [["", "not decided"], [true, "yes"], [false, "no"]],
  });
  const rail = choice(app, {
    path: at("rail"),
    label: "A rail across the studs first",
    hint: "Where the nailer meets no stud.",
    options: [["", "no"], [true, "yes"]],
  });
  const first = [wall, rail];
  const more = [
    length(["wall_board"], "Board before the studs", "Plasterboard and what else covers them."),
    length(["counter"], "Counter that comes on top", "Its thickness. Empty: none comes, or it is there."),
    length(["height"], "Underside above the floor", "Of a piece that hangs on the wall. Empty: it stands."),
    length(["level"], "Spirit level on hand", "Its length."),
  ];
  const corners = [
    length(["corners", "front_left"], "Front left"),
    length(["corners", "front_right"], "Front right"),
    length(["corners", "rear_left"], "Rear left"),
    length(["corners", "rear_right"], "Rear right"),
  ];
  const all = [...first, ...more, ...corners];
  return {
    element: h(
      "div",
      { class: "install-choices" },
      ...first.map((one) => one.element),
      studs(app),
      ...more.map((one) => one.element),
      h("h3", {}, "Floor under the corners"),
      h("p", { class: "quiet" }, "How high it is at each, above one level line. All four or none."),
      h("div", { class: "install-corners" }, ...corners.map((one) => one.element)),
    ),
    update(state) {
      for (const one of all) one.update(state);
    },
  };
}
