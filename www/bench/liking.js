// How the maker likes the page: type, hand, light, voice, keys, language.
import { h } from "../dom.js";
import { tick } from "../scenario-form.js";
import { change, settings } from "../settings.js";
import { LANGUAGES, w } from "../words.js";
import { canStayAwake } from "./awake.js";
import { canSpeak } from "./speech.js";

/**
 * @param {string} id
 * @param {string} label
 * @param {[string, string][]} options
 * @param {string} now
 * @param {(value: string) => void} changed
 */
function select(id, label, options, now, changed) {
  const box = h("select", { id, onchange: () => changed(box.value) }, ...options.map(([value, words]) => h("option", { value, selected: value === now }, words)));
  return h("div", { class: "like" }, h("label", { for: id }, label), box);
}

/**
 * @param {string} label
 * @param {boolean} on
 * @param {(on: boolean) => void} changed
 * @param {boolean} [fixed]
 */
const box = (label, on, changed, fixed = false) => tick(label, on, changed, fixed).element;

export function liking() {
  const now = settings.get();
  /** @type {[string, string][]} */
  const languages = [["", w.liking.asDevice], ...LANGUAGES.map(([code, name]) => /** @type {[string, string]} */ ([code, name]))];
  return h(
    "section",
    {},
    h("h3", {}, w.liking.title),
    h(
      "div",
      { class: "likes" },
      box(w.liking.large, now.size === "large", (on) => change({ size: on ? "large" : "" })),
      box(w.liking.left, now.hand === "left", (on) => change({ hand: on ? "left" : "" })),
      box(canStayAwake() ? w.liking.awake : w.liking.noAwake, now.awake && canStayAwake(), (on) => change({ awake: on }), !canStayAwake()),
      box(canSpeak() ? w.liking.spoken : w.liking.noSpoken, now.spoken && canSpeak(), (on) => change({ spoken: on }), !canSpeak()),
      box(w.liking.keys, now.keys, (on) => change({ keys: on })),
      select(
        "like-light",
        w.liking.light,
        [
          ["", w.liking.asDevice],
          ["light", w.liking.lightOne],
          ["dark", w.liking.darkOne],
        ],
        now.theme,
        (value) => change({ theme: value === "light" || value === "dark" ? value : "" }),
      ),
      select("like-language", w.liking.language, languages, now.language, (value) => {
        change({ language: value });
        // Everything said so far is in the other language.
        location.reload();
      }),
    ),
    h("p", { class: "quiet" }, w.liking.english),
  );
}
