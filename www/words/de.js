// Die Worte der Seite auf Deutsch.
import { bench } from "./de/bench.js";
import { cut } from "./de/cut.js";
import { form } from "./de/form.js";
import { helper } from "./de/helper.js";
import { install } from "./de/install.js";
import { measure } from "./de/measure.js";
import { more } from "./de/more.js";
import { numbers } from "./de/numbers.js";
import { page } from "./de/page.js";
import { size } from "./de/size.js";

/** @type {import("../words.js").Words} */
export const de = { ...page, ...form, ...measure, ...size, ...cut, ...bench, ...helper, ...install, ...numbers, ...more };
