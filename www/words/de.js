// Die Worte der Seite auf Deutsch.

const many = new Intl.PluralRules("de");

/**
 * @param {number} n
 * @param {string} one
 * @param {string} other
 */
const count = (n, one, other) => `${n} ${many.select(n) === "one" ? one : other}`;

/** @type {import("../words.js").Words} */
export const de = {
  stages: { measure: "Messen", size: "Maße", cut: "Zuschnitt", bench: "Werkbank", install: "Einbau" },
  page: {
    starting: "Der Planer wird geladen.",
    noPlanner: "Der Planer lässt sich nicht laden. Lade die Seite neu; was du eingegeben hast, bleibt.",
    noExample: (name) => `Das Beispiel „${name}“ lässt sich nicht holen. Wähle ein anderes oder öffne eine eigene Datei.`,
    noScenario: "Es ist keine Szenario-Datei.",
    notOpened: (file, why) => `${file} wurde nicht geöffnet. ${why} Was vorher da war, ist noch da.`,
    startAgain: "Die Maße des Beispiels wieder einsetzen? Was du hier eingegeben hast, geht verloren. Sichere es vorher in eine Datei, wenn du es brauchst.",
    stepSaid: (k, of, text) => `Schritt ${k} von ${of}: ${text}`,
    elsewhere: "Dieses Stück wurde in einem anderen Tab geändert; die Änderung gilt jetzt auch hier.",
    newer: "Eine neue Fassung ist bereit. Deine Stelle und deine Maße bleiben.",
    loadNewer: "Jetzt laden",
    later: "Später",
    keptInTab: "Der Speicher dieses Browsers ist voll. Was du tust, bleibt nur in diesem Tab: sichere es in eine Datei.",
    keptNowhere: "Dieser Browser bewahrt für diese Seite nichts auf. Sichere dein Szenario in eine Datei, bevor du sie schließt.",
    staleOrder: "Nach der letzten Auswahl, die ging.",
    changeChoices: "Ändere die Auswahl unter „Alle Schritte“.",
    staleSizes: "Nach den letzten Maßen, die gingen.",
    fixSizes: "Maße richtigstellen.",
  },
  count,
};
