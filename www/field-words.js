// Names of the scenario file's fields, as a maker knows them from this page. The core speaks of fields by their names in
// the file, which are right for a file and strange beside a form. They stand in the core's sentences, so they are in its
// language, whatever the page's own words are.

/** What is said with its value, in whole. @type {[string, string][]} */
const SAID = [
  ["`shop.people` 2", "2 people build, in Size"],
  ["`install.to_wall` true", "under Install, that it will be fixed to the wall"],
  ["`install.rail` true", "under Install, that there is a rail"],
  ["stands in: shop.stock", "stands in: list yours in Cut"],
  ["Add it to shop.materials", "Add it to the materials"],
];

/** Whose name in the file would not tell. @type {Record<string, string>} */
const WHOLE = {
  "build.carcass.width": "outside width",
  "build.carcass.height": "outside height",
  "build.carcass.depth": "depth without front",
  "space.height": "height of the opening",
  "space.depth": "depth of the opening",
  "run.filler_least": "least filler",
  "run.filler_most": "greatest filler",
  "run.custom.least": "least width of this piece",
  "run.custom.most": "greatest width of this piece",
  "run.wanted": "list of units that must be there",
  "run.count": "number of bought units",
  "order.first": "part to start with",
  "order.lay_on": "choice of faces",
  "order.done": "list of what is together already",
  "shop.glue": "shop's list",
  "shop.screws": "box of screws",
};

/** Last names that say something else on the page. @type {Record<string, string>} */
const LAST = { over: "level's length", way: "way it leans or falls", first: "first distance", second: "second distance", at: "place", mass_kg: "mass", rating_kg: "load that a pair of runners carries", travel: "way the box comes out", handle: "way the handles stand out", room_c: "warmth where it is glued", least_c: "least warmth for the glue", across: "number across", mount: "way the fronts lie" };

/** What one of a list is called. @type {Record<string, string>} */
const ONE = { widths: "width", heights: "height", depths: "depth", passages: "passage", obstacles: "obstacle", contents: "thing", stock: "sheet", materials: "material", parts: "part", joints: "joint", sheets: "sheet", wanted: "unit", offcuts: "offcut", tools: "tool" };

/** Where a field lies, said behind its name. @type {[RegExp, string][]} */
const WHERE = [
  [/^space\.walls\.(left|right)\./, " at the $1 wall"],
  [/^space\.walls\.back\./, " at the wall behind"],
  [/^space\.floor\.across\./, " on the floor, left to right"],
  [/^space\.floor\.along\./, " on the floor, front to back"],
  [/^space\.diagonals\./, " diagonal"],
];

/** A place in the file, but no file's name: `build.drawers.heights[1]`, not `plan.json`. */
const PLACE = /`([a-z_]+(?:\[\d+\])?(?:\.[a-z_]+(?:\[\d+\])?)+|[a-z_]+\[\d+\])(?<!\.(?:json|csv|txt|html))`/g;
/** A name or a value by itself. */
const WORD = /`([a-z][a-z_-]*)`/g;

/** @param {string} place @returns {string} */
function nameOf(place) {
  const whole = WHOLE[place];
  if (whole !== undefined) return `the ${whole}`;
  const [, list = "", n, last = ""] = /(?:^|\.)([a-z_]+)\[(\d+)\](?:\.([a-z_.]+))?(?:\[\d+\])?$/.exec(place) ?? [];
  const one = n === undefined ? "" : `${ONE[list] ?? list.replaceAll("_", " ")} ${Number(n) + 1}`;
  const end = n === undefined ? (/([a-z_]+)$/.exec(place)?.[1] ?? place) : (last.split(".").at(-1) ?? "");
  const name = LAST[end] ?? end.replaceAll("_", " ");
  if (n !== undefined) return name === "" || name === ONE[list] ? one : `the ${name} of ${one}`;
  const found = WHERE.find(([path]) => path.test(place));
  const [, side = ""] = found?.[0].exec(place) ?? [];
  return `the ${name}${found?.[1].replace("$1", side) ?? ""}`;
}

/**
 * A sentence of the core without the file's language.
 * @param {string} text
 * @param {string} [own] the place of the field beside which it stands
 * @returns {string}
 */
export function inWords(text, own = "") {
  let out = text;
  for (const [written, said] of SAID) out = out.replaceAll(written, said);
  if (own !== "") out = out.replaceAll(`\`${own}\``, "this");
  out = out.replaceAll(PLACE, (_, place) => nameOf(place)).replaceAll(WORD, (_, word) => `“${word.replaceAll("_", " ")}”`);
  // A name may have come to stand first.
  return !text.startsWith("`") ? out : out.replace(/^[a-z]/, (letter) => letter.toUpperCase());
}
