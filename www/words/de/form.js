// Was die Formulare von Messen, Maße und Einbau gemeinsam haben, und was schon gesägt ist.
import { plural } from "../plural.js";

const { count } = plural("de");

/** @type {typeof import("../en/form.js").form} */
export const form = {
  form: {
    usual: "wie üblich",
    follows: "ergibt sich",
    remove: "Entfernen",
    removes: (what) => `Entfernen: ${what}`,
  },
  made: {
    title: "Schon gesägt",
    entries: (n) => count(n, "Eintrag", "Einträge"),
    none: "was anders geworden ist",
    intro: "Gib an, was gesägt ist und wo es anders geworden ist. Was noch nicht gesägt ist, richtet sich danach.",
    choose: "Teil wählen",
    planned: "wie geplant",
    long: "Geworden: lang",
    wide: "breit",
    thick: "dick",
    sheetThick: "wie Platte",
    spoiled: "Verdorben: noch einmal sägen",
    notCut: "Noch nicht gesägt",
    isNotCut: (part) => `${part}: noch nicht gesägt`,
    sheet: "Platte",
    measures: "misst",
    sheetNo: (n) => `Platte ${n}`,
    different: "Eine Platte misst anders",
  },
};
