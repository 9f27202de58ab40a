// The page's own words, in the language that was chosen or that the device asks for; only its catalogue is
// fetched. What the core says about a plan comes in English whatever is chosen here.
import { settings } from "./settings.js";

/** @typedef {typeof import("./words/en.js").en} Words A catalogue: every language has every entry, with the same values. */

/** By code, in their own names. */
export const LANGUAGES = /** @type {const} */ ([
  ["en", "English"],
  ["de", "Deutsch"],
]);

/** @returns {string} the code of a language there is a catalogue of */
function chosen() {
  const wanted = settings.get().language || navigator.language;
  return LANGUAGES.find(([code]) => wanted.toLowerCase().startsWith(code))?.[0] ?? "en";
}

export const language = chosen();

/** @type {Words} */
export const w = language === "de" ? (await import("./words/de.js")).de : (await import("./words/en.js")).en;

document.documentElement.lang = language;

/** The core's language, for what holds its sentences. */
export const CORE = "en";
