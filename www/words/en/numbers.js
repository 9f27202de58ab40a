// Numbers: the checks with formula, inputs and source.

export const numbers = {
  numbers: {
    /** In the order in which a maker asks. */
    themes: {
      fit: "The opening",
      panels: "Panels",
      screws: "Screws",
      "pull-out": "What slides out",
      fronts: "Fronts and doors",
      "tip-over": "Tipping over",
      lifting: "Lifting",
      install: "Fixing in the room",
      materials: "Dust, vapours, glue",
      tolerance: "How much may be off",
    },
    none: "No checks yet. ",
    coming: "Running the checks.",
    claim: "Checks of your own work: no ratings, and no claim that anything complies with a standard. ",
    first: "Local codes and a licensed person come first.",
    grades: "Behind a source: read, it was seen there; quoted, it was seen where another quotes it; from memory, look it up before you rely on it; worked out, it follows from the formula.",
    heads: ["Check", "Result", "Allowed", "Verdict"],
    passes: "passes",
    look: "look here",
    atStep: (/** @type {number} */ n) => `At step ${n}.`,
    source: (/** @type {number} */ n) => `Source ${n}.`,
    sources: (/** @type {string} */ theme) => `Sources: ${theme}`,
    count: (/** @type {number} */ all, /** @type {number} */ judged, /** @type {number} */ open) =>
      `${all} numbers, ${judged} of them with a limit; ${open === 0 ? "all of these pass" : `${open} to look at`}.`,
  },
};
