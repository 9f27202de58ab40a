// Names of the scenario file's fields, as a maker knows them from this page. The core speaks of fields by their names in
// the file, which are right for a file and strange beside a form.

/** What is said with its value, in whole. @type {[string, string][]} */
const SAID = [
  ["`shop.people` 2", "2 under People, in Size"],
  ["`install.to_wall` true", "under Install, that it will be fixed to the wall"],
  ["`install.rail` true", "under Install, that there is a rail"],
];

/** Whose last name alone would not tell. @type {Record<string, string>} */
const NAMES = {
  "build.carcass.width": "the outside width",
  "build.carcass.height": "the outside height",
  "build.carcass.depth": "the depth without front",
  "space.height": "the height of the opening",
  "run.wall": "the wall",
  "run.filler_least": "the least filler",
  "run.custom.least": "the least width of this piece",
  "run.custom.most": "the greatest width of this piece",
  "run.wanted": "the units that must be there",
  "run.count": "how many are bought",
  "order.first": "the part to start with",
  "order.done": "what is together already",
};

/** A place in the file, but no file's name: `build.drawers.heights[1]`, not `plan.json`. */
const PLACE = /`([a-z_]+(?:\[\d+\])?(?:\.[a-z_]+(?:\[\d+\])?)+)(?<!\.(?:json|csv|txt|html))`/g;
/** A name or a value by itself. */
const WORD = /`([a-z][a-z_-]*)`/g;

/** @param {string} place @returns {string} its last name, counted from 1 where it is one of several */
function lastName(place) {
  const [, name = "", n] = /([a-z_]+)(?:\[(\d+)\])?$/.exec(place) ?? [];
  return name.replaceAll("_", " ") + (n === undefined ? "" : ` ${Number(n) + 1}`);
}

/**
 * A sentence of the core without the file's language.
 * @param {string} text
 * @returns {string}
 */
export function inWords(text) {
  if (!text.includes("`")) return text;
  let out = text;
  for (const [written, said] of SAID) out = out.replaceAll(written, said);
  out = out.replaceAll(PLACE, (_, place) => NAMES[place] ?? lastName(place)).replaceAll(WORD, (_, word) => `“${word.replaceAll("_", " ")}”`);
  // A name may have come to stand first.
  return out.replace(/^[a-z]/, (letter) => letter.toUpperCase());
}
