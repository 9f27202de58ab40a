// Rehearsal: the picture shows how it lies before a step; the helper says which face is down and
// what comes next, then looks.
import { fractions, h } from "../dom.js";
import { glyph } from "../glyphs.js";
import { sentencesOf } from "../plan.js";
import { w } from "../words.js";

/** @typedef {import("../types").Step} Step */
/** @typedef {import("../types").Direction} Direction */

/** @type {Direction[]} */
const FACES = ["-x", "+x", "-y", "+y", "-z", "+z"];

/**
 * The same choice always has its answers in the same order, and not the right one first.
 * @template T
 * @param {T} right
 * @param {T[]} wrong
 * @param {number} turn
 */
function mixed(right, wrong, turn) {
  const all = [...wrong];
  all.splice(turn % (wrong.length + 1), 0, right);
  return all;
}

/** Only what is asked for: not the glue before it, nor the screws behind it.
 * @param {Step | undefined} step */
const short = (step) => (step ? sentencesOf(step.text).asked : "");

/**
 * What might as well come next, from the steps after it, then from those before.
 * @param {Step[]} steps
 * @param {number} i
 */
function others(steps, i) {
  const right = short(steps[i]);
  const far = [i + 1, i + 2, i + 4, i - 2, i - 1, i + 3].flatMap((n) => short(steps[n]) || []);
  return [...new Set(far.filter((text) => text !== right))].slice(0, 2);
}

/**
 * @param {{ done: (right: number, of: number) => void, show: () => void, go: (by: number) => void, stop: () => void }} on
 */
export function rehearsal(on) {
  let right = 0;
  let asked = 0;

  /**
   * One question with its answers.
   * @template T
   * @param {string} text
   * @param {T[]} options
   * @param {(option: T) => string} label
   * @param {T} answer
   * @param {string} lang
   * @param {() => void} then
   */
  function question(text, options, label, answer, lang, then) {
    const said = h("p", { class: "quiz-said", role: "status" });
    let open = true;
    const buttons = options.map((option) =>
      h(
        "button",
        {
          type: "button",
          class: "quiz-option",
          lang,
          onclick: () => {
            if (!open) return;
            open = false;
            const hit = option === answer;
            asked += 1;
            if (hit) right += 1;
            options.forEach((one, i) => {
              const button = buttons[i];
              if (one === answer) button?.setAttribute("data-right", "");
              else if (one === option) button?.setAttribute("data-wrong", "");
              button?.setAttribute("aria-disabled", "true");
            });
            said.replaceChildren(glyph(hit ? "check" : "caution"), h("span", {}, hit ? w.rehearsal.right : w.rehearsal.wrong(label(answer))));
            on.done(right, asked);
            then();
          },
        },
        fractions(label(option)),
      ),
    );
    return h("div", { class: "quiz" }, h("p", { class: "quiz-question" }, text), h("div", { class: "quiz-options" }, ...buttons), said);
  }

  return {
    /**
     * @param {Step[]} steps
     * @param {number} i
     */
    ask(steps, i) {
      const step = steps[i];
      const stop = h("button", { type: "button", class: "plain", onclick: on.stop }, w.rehearsal.stop);
      const root = h("div", { class: "rehearsal" }, stop);
      if (!step) return root;
      const put = (/** @type {HTMLElement[]} */ ...all) => {
        stop.before(...all);
        all.at(-1)?.scrollIntoView({ block: "nearest" });
      };
      const last = i === steps.length - 1;
      const after = () =>
        put(
          h(
            "div",
            { class: "buttons" },
            last ? h("button", { type: "button", class: "strong", onclick: on.stop }, w.rehearsal.finish(right, asked)) : h("button", { type: "button", class: "strong", onclick: () => on.go(1) }, w.rehearsal.following),
          ),
        );
      const second = () => {
        const answer = short(step);
        put(
          question(w.rehearsal.whatNext, mixed(answer, others(steps, i), i), (text) => text, answer, "en", () => {
            on.show();
            after();
          }),
        );
      };
      const wrong = FACES.filter((face) => face !== step.bench_face);
      const faces = mixed(step.bench_face, [wrong[i % 5], wrong[(i + 2) % 5]].filter((face) => face !== undefined), i + 1);
      stop.before(
        h("p", { class: "lies" }, glyph("look"), h("span", {}, i === 0 ? w.rehearsal.empty : w.rehearsal.before)),
        question(w.rehearsal.whichFace, faces, (face) => w.rehearsal.faces[face], step.bench_face, document.documentElement.lang, second),
      );
      return root;
    },
  };
}
