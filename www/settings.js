// How the maker likes the page: kept on the device, for every piece.
import { read, whenElsewhere, write } from "./stored.js";
import { createStore } from "./store.js";

/**
 * @typedef {object} Settings
 * @property {string} language code; empty as the device says
 * @property {"" | "light" | "dark"} theme empty as the device says
 * @property {"" | "large"} size of the type on Bench
 * @property {"" | "left"} hand that the buttons are for; empty is the right one
 * @property {boolean} awake the screen stays on at Bench
 * @property {boolean} spoken each step is read aloud
 * @property {boolean} keys and pedals turn the steps
 * @property {boolean} pair both people's work is shown
 */

/** @type {Settings} */
const USUAL = { language: "", theme: "", size: "", hand: "", awake: false, spoken: false, keys: true, pair: false };

/**
 * What was kept, as far as it is understood.
 * @param {string | null} text
 * @returns {Settings}
 */
function readAs(text) {
  /** @type {any} */
  let kept;
  try {
    kept = JSON.parse(text ?? "{}");
  } catch {
    kept = {};
  }
  const out = { ...USUAL };
  for (const name of /** @type {(keyof Settings)[]} */ (Object.keys(USUAL))) {
    if (typeof kept?.[name] === typeof USUAL[name]) Object.assign(out, { [name]: kept[name] });
  }
  return out;
}

export const settings = createStore(readAs(read("settings")));

const darkly = matchMedia("(prefers-color-scheme: dark)");

/** @returns {boolean} whether the page is dark now */
export function isDark() {
  const { theme } = settings.get();
  return theme === "" ? darkly.matches : theme === "dark";
}

/** @param {Partial<Settings>} change */
export function change(change) {
  settings.set(change);
  write("settings", JSON.stringify(settings.get()));
}

/** What the style sheets go by. */
function show() {
  const { theme, size, hand } = settings.get();
  const marks = document.documentElement.dataset;
  for (const [name, value] of Object.entries({ theme, size, hand })) {
    if (value) marks[name] = value;
    else delete marks[name];
  }
}

settings.subscribe(show);
show();
whenElsewhere((key, value) => {
  if (key === "settings") settings.set(readAs(value));
});
