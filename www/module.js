// Fetches and starts the compiled modules: the picture, and the planner with all that hangs on it.
import { addressInside, inside } from "./inside.js";

/**
 * @param {"picture" | "planner"} name
 * @returns {Promise<WebAssembly.Module>}
 */
export async function compile(name) {
  const file = `pkg/jointwise_${name}_bg.wasm`;
  const own = inside?.files[file]?.base64;
  if (own !== undefined) return WebAssembly.compile(Uint8Array.from(atob(own), (letter) => letter.charCodeAt(0)));
  const answer = await fetch(new URL(`./${file}`, import.meta.url));
  if (!answer.ok) throw new Error(`${answer.status}`);
  // Some hosts send it with a type that browsers do not compile on the way in.
  if (/^application\/wasm\b/.test(answer.headers.get("content-type") ?? "")) return WebAssembly.compileStreaming(answer);
  return WebAssembly.compile(await answer.arrayBuffer());
}

/**
 * Starts a module here.
 * @template {{ default(from: { module_or_path: WebAssembly.Module }): Promise<unknown> }} Glue
 * @param {"picture" | "planner"} name
 * @param {WebAssembly.Module | Promise<WebAssembly.Module>} compiled
 * @returns {Promise<Glue>}
 */
export async function start(name, compiled) {
  const file = `pkg/jointwise_${name}.js`;
  // A computed address, so that the type check does not need the generated module to be there.
  const address = addressInside(file) ?? new URL(`./${file}`, import.meta.url).href;
  const [glue, module_or_path] = await Promise.all([import(address), compiled]);
  await glue.default({ module_or_path });
  return glue;
}
