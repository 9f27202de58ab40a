// Reading and changing the scenario by the path of a field, without knowing what it means.

/** @typedef {import("./types").Json} Json */
/** @typedef {import("./types").Path} Path */

/** The longest text of a scenario that is taken, in characters or bytes: what is larger was not made by hand. */
export const LONGEST = 1_000_000;

/** The core's reader goes less deep; much deeper the page itself could not go through it. */
const DEEPEST = 200;

/**
 * The tree of a scenario's text, wherever it comes from.
 * @param {string} text
 * @returns {Json} a section; whether it is a scenario is the core's to say
 * @throws when it is none, too long or nested too deep
 */
export function parse(text) {
  if (text.length > LONGEST) throw new Error("too long");
  /** @type {Json} */
  const root = JSON.parse(text);
  if (root === null || typeof root !== "object" || Array.isArray(root)) throw new Error("no section");
  /** @type {Json[]} */
  let level = [root];
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > DEEPEST) throw new Error("nested too deep");
    level = level.flatMap((one) => (one !== null && typeof one === "object" ? Object.values(one) : []));
  }
  return root;
}

/**
 * One spelling for a path, whether it came from a finding (`contents[0].width`) or from a form.
 * @param {Path | string} path
 */
export function keyOf(path) {
  return typeof path === "string" ? path.replaceAll(/\[(\d+)\]/g, ".$1") : path.join(".");
}

/**
 * @param {Json} root
 * @param {Path} path
 * @returns {Json | undefined}
 */
export function valueAt(root, path) {
  /** @type {Json | undefined} */
  let at = root;
  for (const name of path) {
    if (Array.isArray(at)) at = typeof name === "number" ? at[name] : undefined;
    else if (at !== null && typeof at === "object") at = at[String(name)];
    else return undefined;
  }
  return at;
}

/**
 * A copy with one value changed; undefined takes the field out, so that its default holds.
 * Sections that are missing on the way are made.
 * @param {Json | undefined} root
 * @param {Path} path
 * @param {Json | undefined} value
 * @returns {Json}
 */
export function withValue(root, path, value) {
  const [name, ...rest] = path;
  if (name === undefined) return value ?? null;
  if (typeof name === "number") {
    const list = Array.isArray(root) ? [...root] : [];
    list[name] = rest.length > 0 ? withValue(list[name], rest, value) : (value ?? null);
    // A list of plain values ends with its last value.
    if (rest.length === 0) while (list.length > 0 && (list.at(-1) ?? null) === null) list.pop();
    return list;
  }
  const section = sectionOf(root);
  if (rest.length > 0) section[name] = withValue(section[name], rest, value);
  else if (value === undefined) delete section[name];
  else section[name] = value;
  return section;
}

/**
 * The same without a section that has nothing in it.
 * @param {Json} root
 * @param {string} name
 * @returns {Json}
 */
export function withoutEmpty(root, name) {
  const section = valueAt(root, [name]);
  const empty = section !== null && typeof section === "object" && !Array.isArray(section) && Object.keys(section).length === 0;
  return empty ? withValue(root, [name], undefined) : root;
}

/**
 * @param {Json | undefined} value
 * @returns {Json[]}
 */
export function listOf(value) {
  return Array.isArray(value) ? value : [];
}

/**
 * @param {Json | undefined} value
 * @returns {{ [key: string]: Json }} a copy that may be changed; an empty one of what is no section
 */
export function sectionOf(value) {
  return value !== null && typeof value === "object" && !Array.isArray(value) ? { ...value } : {};
}

/**
 * @param {Json | undefined} value
 * @returns {string} as it stands in the file; nothing for sections and gaps
 */
export function typed(value) {
  return value === null || value === undefined || typeof value === "object" ? "" : String(value);
}

/**
 * The sheets by their ids, each with what it is called.
 * @param {Json} scenario
 * @returns {[string, string][]}
 */
export function materialsOf(scenario) {
  return listOf(valueAt(scenario, ["shop", "materials"])).map((material) => {
    const id = typed(valueAt(material, ["id"]));
    return [id, typed(valueAt(material, ["name"])) || id];
  });
}

/**
 * What an example is called in addresses and storage.
 * @param {import("./types").Example | undefined} example
 */
export const exampleName = (example) => (example?.file ?? "").replace(/\.json$/, "");

/**
 * @param {import("./types").Example[]} examples
 * @param {string} name
 */
export const exampleNamed = (examples, name) => examples.find((one) => exampleName(one) === name);

/**
 * Whether the scenario lists its piece part by part, so that there is no gap to measure.
 * @param {Json} scenario
 */
export const isListed = (scenario) => valueAt(scenario, ["piece"]) !== undefined;
