// Zahlen: die Prüfungen mit Formel, Eingaben und Quelle.

/** @type {typeof import("../en/numbers.js").numbers} */
export const numbers = {
  numbers: {
    themes: {
      fit: "Die Öffnung",
      panels: "Platten",
      screws: "Schrauben",
      "pull-out": "Was herausfährt",
      fronts: "Fronten und Türen",
      "tip-over": "Kippen",
      lifting: "Heben",
      install: "Befestigung im Raum",
      materials: "Staub, Dämpfe, Leim",
      tolerance: "Was abweichen darf",
    },
    none: "Noch keine Prüfungen. ",
    coming: "Die Prüfungen laufen.",
    claim: "Prüfungen deiner eigenen Arbeit: keine Einstufung, und keine Zusage, dass etwas einer Norm entspricht. ",
    first: "Örtliche Vorschriften und eine Fachkraft gehen vor.",
    grades: "Hinter einer Quelle steht „read“: dort gesehen; „quoted“: gesehen, wo jemand sie anführt; „from memory“: aus dem Gedächtnis, schlag nach, bevor du dich darauf verlässt; „worked out“: folgt aus der Formel.",
    heads: ["Prüfung", "Ergebnis", "Erlaubt", "Urteil"],
    passes: "besteht",
    look: "hier nachsehen",
    atStep: (n) => `Bei Schritt ${n}.`,
    source: (n) => `Quelle ${n}.`,
    sources: (theme) => `Quellen: ${theme}`,
    count: (all, judged, open) => `${all} Zahlen, ${judged} davon mit einer Grenze; ${open === 0 ? "alle diese bestehen" : `bei ${open} ist nachzusehen`}.`,
  },
};
