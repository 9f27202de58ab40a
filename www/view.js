// The one script that knows the compiled picture.
import { compile, start } from "./module.js";

/** @type {import("./types").Drawer | null} */
let glue = null;

/** Settled once the picture can be drawn, or once it is known that it cannot: then the still drawings stand in.
 * @type {Promise<void> | null} */
let running = null;

/** @returns {Promise<void>} */
export function ready() {
  running ??= start("picture", compile("picture")).then(
    (found) => void (glue = /** @type {import("./types").Drawer} */ (found)),
    (error) => console.error(error),
  );
  return running;
}

/**
 * @param {WebGL2RenderingContext} gl
 * @param {string} planJson
 * @returns {import("./types").View | null} Null when this device cannot draw it.
 */
export function createView(gl, planJson) {
  if (!glue) return null;
  try {
    return new glue.View(gl, planJson);
  } catch (error) {
    console.error(error);
    return null;
  }
}
