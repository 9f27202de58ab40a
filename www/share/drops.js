// A scenario file dropped anywhere on the page.

/** @typedef {import("../types").App} App */

/**
 * A scenario file dropped anywhere is opened.
 * @param {App} app
 */
export function takeDrops(app) {
  const holdsFile = (/** @type {DragEvent} */ event) => event.dataTransfer?.types.includes("Files") ?? false;
  addEventListener("dragover", (event) => {
    if (!holdsFile(event)) return;
    event.preventDefault();
    document.documentElement.dataset.drop = "";
  });
  const over = () => delete document.documentElement.dataset.drop;
  addEventListener("dragleave", (event) => {
    if (event.relatedTarget === null) over();
  });
  addEventListener("drop", (event) => {
    over();
    const [file] = event.dataTransfer?.files ?? [];
    if (!file) return;
    event.preventDefault();
    void app.openFile(file);
  });
}
