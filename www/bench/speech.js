// Reads a step aloud with the browser's own voice.
import { CORE } from "../words.js";

/** @returns {boolean} */
export const canSpeak = () => "speechSynthesis" in window && "SpeechSynthesisUtterance" in window;

/** A voice says signs badly: `#8 × 1 5/8 in` is read as a maker would.
 * @param {string} text */
function sayable(text) {
  return text
    .replaceAll(/#(\d+)/g, "number $1")
    .replaceAll("×", "by")
    .replaceAll(/(\d) (\d+\/\d+)/g, "$1 and $2")
    .replaceAll(/(\d) in\b/g, "$1 inches")
    .replaceAll(/(\d) mm\b/g, "$1 millimetres");
}

/** @param {string} text in the core's language */
export function speak(text) {
  if (!canSpeak()) return;
  speechSynthesis.cancel();
  const said = new SpeechSynthesisUtterance(sayable(text));
  said.lang = CORE;
  speechSynthesis.speak(said);
}

export function hush() {
  if (canSpeak()) speechSynthesis.cancel();
}
