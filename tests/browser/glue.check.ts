// The page describes the compiled module by hand, so that it can be checked and read without it.
// Here the description meets the types that the module was built with. Nothing runs.
import type * as module from "../../www/pkg/jointwise_web.js";
import type { Glue } from "../../www/types";

type Fits<Real extends Promised, Promised> = Real;
export type Checked = Fits<typeof module, Glue>;
