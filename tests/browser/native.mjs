// The command of this machine, for what is held against it.

import { spawnSync } from "node:child_process";
import { ROOT } from "./site.mjs";

/** The command as built, or as cargo builds it. */
const COMMAND = process.env.JOINTWISE ? [process.env.JOINTWISE] : ["cargo", "run", "--quiet", "--locked", "-p", "jointwise-cli", "--"];

/** Plans files or folders into a folder; paths are relative to the workspace. Gives the exit code. */
export function build(given, folder) {
  const [program, ...words] = [...COMMAND, "build", ...given, "--out", folder];
  const run = spawnSync(program, words, { cwd: ROOT, encoding: "utf8", maxBuffer: 1 << 28 });
  // 1 says that something is to be put right before building; the files are written all the same.
  if (run.status !== 0 && run.status !== 1) throw new Error(`the command ended with ${run.status}\n${run.stderr.slice(-2000)}`);
  return run.status;
}
