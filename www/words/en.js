// The page's words in English. Whole sentences, and functions where something goes in: languages
// differ in order, plural and gender, so nothing is put together from halves.
import { bench } from "./en/bench.js";
import { cut } from "./en/cut.js";
import { form } from "./en/form.js";
import { helper } from "./en/helper.js";
import { install } from "./en/install.js";
import { measure } from "./en/measure.js";
import { more } from "./en/more.js";
import { numbers } from "./en/numbers.js";
import { page } from "./en/page.js";
import { size } from "./en/size.js";

export const en = { ...page, ...form, ...measure, ...size, ...cut, ...bench, ...helper, ...install, ...numbers, ...more };
