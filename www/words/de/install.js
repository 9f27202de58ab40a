// Einbau: der Raum.

/** @type {typeof import("../en/install.js").install} */
export const install = {
  install: {
    room: "Raum",
    title: "Der Raum",
    unknown: "Dieses Stück ist Teil für Teil angegeben, und vom Raum ist nichts bekannt. Was für jedes Stück gilt:",
    none: "Für diesen Raum gibt es noch keine Schritte.",
    usual: [
      "Suche Leitungen und Rohre, bevor du in eine Wand bohrst.",
      "Befestige an der Wand, was hoch oder schmal ist, bevor du es belädst: Es kann kippen.",
      "Hebe und trage zu zweit, was einer allein nicht mit Leichtigkeit bewegt.",
      "Örtliche Vorschriften und eine Fachkraft gehen vor: bei Strom, Wasser, Gas und der Befestigung an der Wand.",
    ],
    common: "Übliche Praxis, ohne Quelle.",
    studs: "Ständer in der Wand",
    studsHint: "Vom linken Ende der Öffnung bis zur Mitte eines jeden, mit Strichpunkt dazwischen. Leer: sie gelten als gleichmäßig verteilt.",
    wall: "An der Wand befestigen",
    open: "nicht entschieden",
    yes: "ja",
    no: "nein",
    rail: "Zuerst eine Leiste quer über die Ständer",
    railHint: "Wo die Anschraubleiste keinen Ständer trifft.",
    board: "Platte vor den Ständern",
    boardHint: "Gipskarton und was sie sonst bedeckt.",
    counter: "Arbeitsplatte, die darauf kommt",
    counterHint: "Ihre Dicke. Leer: es kommt keine, oder sie ist schon da.",
    height: "Unterkante über dem Boden",
    heightHint: "Bei einem Stück, das an der Wand hängt. Leer: es steht.",
    level: "Vorhandene Wasserwaage",
    levelHint: "Ihre Länge.",
    corners: { front_left: "Vorn links", front_right: "Vorn rechts", rear_left: "Hinten links", rear_right: "Hinten rechts" },
    floor: "Boden unter den Ecken",
    floorHint: "Wie hoch er an jeder ist, über einer waagrechten Linie. Alle vier oder keine.",
  },
};
