// The planner of the site that is tested, without a page.

import { load as planner } from "../../crate/xtask/planner.mjs";
import { SITE } from "./site.mjs";

/** A fresh instance of the module, with its exports. */
export const load = () => planner(SITE);
