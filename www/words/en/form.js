// What the forms of Measure, Size and Install have in common, and what is cut already.
import { plural } from "../plural.js";

const { count } = plural("en");

export const form = {
  form: {
    usual: "as usual",
    follows: "follows",
    remove: "Remove",
    removes: (/** @type {string} */ what) => `Remove ${what}`,
  },
  made: {
    title: "Cut already",
    entries: (/** @type {number} */ n) => count(n, "entry", "entries"),
    none: "what came out different",
    intro: "Mark what is cut and say where it came out different. What is not cut yet follows.",
    choose: "choose a part",
    planned: "as planned",
    long: "Came out long",
    wide: "wide",
    thick: "thick",
    sheetThick: "as its sheet",
    spoiled: "Spoiled: cut it again",
    notCut: "Not cut yet",
    isNotCut: (/** @type {string} */ part) => `${part} is not cut yet`,
    sheet: "Sheet",
    measures: "measures",
    sheetNo: (/** @type {number} */ n) => `sheet ${n}`,
    different: "A sheet measures different",
  },
};
