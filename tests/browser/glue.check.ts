// The page describes the compiled modules by hand, so that it can be checked and read without it.
// Here the description meets the types that they were built with. Nothing runs.
import type * as picture from "../../www/pkg/jointwise_picture.js";
import type * as planner from "../../www/pkg/jointwise_planner.js";
import type { Core, Drawer } from "../../www/types";

type Fits<Real extends Promised, Promised> = Real;
export type Checked = [Fits<typeof planner, Core>, Fits<typeof picture, Drawer>];
