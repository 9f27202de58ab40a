// The page's words in English. Whole sentences, and functions where something goes in: languages
// differ in order, plural and gender, so nothing is put together from halves.

const many = new Intl.PluralRules("en");

/**
 * @param {number} n
 * @param {string} one
 * @param {string} other
 */
const count = (n, one, other) => `${n} ${many.select(n) === "one" ? one : other}`;

export const en = {
  stages: { measure: "Measure", size: "Size", cut: "Cut", bench: "Bench", install: "Install" },
  page: {
    starting: "Getting the planner ready.",
    noPlanner: "The planner cannot be loaded. Load the page again; what you typed is kept.",
    noExample: (/** @type {string} */ name) => `The example “${name}” cannot be fetched. Choose another, or open a file of your own.`,
    noScenario: "It is not a scenario file.",
    notOpened: (/** @type {string} */ file, /** @type {string} */ why) => `${file} was not opened. ${why} What you had is still here.`,
    startAgain: "Put the example's own sizes back? What you typed here goes. Save it to a file first if you need it.",
    stepSaid: (/** @type {number} */ k, /** @type {number} */ of, /** @type {string} */ text) => `Step ${k} of ${of}: ${text}`,
    elsewhere: "This piece was changed in another tab; the change is taken over here.",
    newer: "A new version is ready. Your place and your sizes are kept.",
    loadNewer: "Load it now",
    later: "Later",
    keptInTab: "Nothing more fits in this browser's storage. What you do is kept in this tab only: save it to a file.",
    keptNowhere: "This browser keeps nothing for this page. Save your scenario to a file before you close it.",
    staleOrder: "From the last choices that worked.",
    changeChoices: "Change your choices under All steps.",
    staleSizes: "From the last sizes that worked.",
    fixSizes: "Put the sizes right.",
  },
  count,
};
