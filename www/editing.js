// Changes to the scenario that are more than one value.
import { listOf, sectionOf, valueAt } from "./scenario.js";

/** @typedef {import("./types").App} App */
/** @typedef {import("./types").Json} Json */
/** @typedef {import("./types").Path} Path */

/**
 * The page's app, but a section that nothing is left in goes with its last entry: else its other
 * fields would be missed.
 * @param {App} app
 * @returns {App}
 */
export function pruning(app) {
  return {
    ...app,
    edit(path, value) {
      let cut = path;
      while (value === undefined && cut.length > 2) {
        const above = cut.slice(0, -1);
        const last = cut[cut.length - 1];
        const section = valueAt(app.state().scenario, above);
        if (section === undefined || section === null || typeof section !== "object" || Array.isArray(section)) break;
        if (typeof above[above.length - 1] === "number" || Object.keys(section).some((name) => name !== last)) break;
        cut = above;
      }
      app.edit(cut, value);
    },
  };
}

/**
 * Changes a list at the top, or in a section that may not be there yet. An empty list goes from its section, and with
 * the last list the section.
 * @param {App} app
 * @param {[string] | [string, string]} path
 * @param {(list: Json[]) => Json[]} change
 */
export function relist(app, [first, second], change) {
  app.reshape((scenario) => {
    if (second === undefined) {
      scenario[first] = change(listOf(scenario[first]));
      return;
    }
    const section = sectionOf(scenario[first]);
    const list = change(listOf(section[second]));
    if (list.length > 0) section[second] = list;
    else delete section[second];
    if (Object.keys(section).length > 0) scenario[first] = section;
    else delete scenario[first];
  });
}

/**
 * A list without one of its entries.
 * @param {number} i
 * @returns {(list: Json[]) => Json[]}
 */
export const leavingOut = (i) => (list) => list.filter((_, n) => n !== i);
