// The first page of the sheet: everything that is not needed at each step.
import { h } from "../dom.js";
import { openScenario, printHere, saveModel, saveOneFile, saveScenario, sending } from "../share/take.js";
import { change, settings } from "../settings.js";
import { w } from "../words.js";
import { already } from "./already.js";
import { liking } from "./liking.js";
import { off } from "./off.js";
import { entry, section } from "./sheet.js";

/**
 * @param {import("../types").App} app
 * @param {import("./sheet.js").Sheet} sheet
 * @param {{ rehearse: () => void, tickAll: () => void }} does
 */
export function more(app, sheet, does) {
  const then = (/** @type {() => unknown} */ act) => async () => {
    sheet.close();
    try {
      await act();
    } catch (error) {
      console.info("not made:", error);
      app.notice(w.more.failed);
    }
  };
  const { pair } = settings.get();
  sheet.show(
    w.more.title,
    section(
      w.more.different,
      entry("check", w.more.already, w.more.alreadyHint, () => sheet.show(w.more.already, already(app, does.tickAll, sheet.close))),
      entry("square", w.more.off, w.more.offHint, () => sheet.show(w.more.off, off(app))),
    ),
    section(
      w.more.two,
      entry("helper", pair ? w.more.pairOff : w.more.pair, w.more.pairHint, then(() => change({ pair: !pair }))),
      entry("look", w.more.rehearse, w.more.rehearseHint, then(does.rehearse)),
      entry("send", w.more.send, w.more.sendHint, () => sheet.show(w.more.send, sending(app))),
    ),
    section(
      w.more.take,
      entry("print", w.more.print, w.more.printHint, then(() => printHere(app))),
      entry("stick", w.more.oneFile, w.more.oneFileHint, then(() => saveOneFile(app))),
      entry("cube", w.more.model, w.more.modelHint, then(() => saveModel(app))),
      entry("save", w.more.save, w.more.saveHint, then(() => saveScenario(app))),
      entry("open", w.more.open, w.more.openHint, () => openScenario(app, sheet.close)),
    ),
    liking(),
    h("p", { class: "quiet" }, app.state().offline ? w.more.offline : w.more.online),
  );
}
