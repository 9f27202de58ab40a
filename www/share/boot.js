// Starts a page that was saved as one file. A plain script, written into that file as it stands: it
// turns the scripts beside it into addresses of this page, scripts after those that they import, and
// starts the first. The worker starts with it too: there the files come as its first message.
(() => {
  /** @typedef {Record<string, { type: string, text?: string, base64?: string }>} Files */

  // Only where a line imports: comments name types by the same words.
  const IMPORT = /(^import\b[^"\n]*|^\} from |^export [^"\n]*from |\bawait import\()"(\.{1,2}\/[^"]+\.js)"/gm;

  /**
   * @param {string} from
   * @param {string} to relative to it
   */
  const nameOf = (from, to) => new URL(to, `file:///${from}`).pathname.slice(1);

  /**
   * @param {Files} files
   * @returns {{ addresses: Record<string, string>, address: (name: string) => string }}
   */
  function unfold(files) {
    /** @type {Record<string, string>} */
    const addresses = {};
    /** @type {string[]} Scripts that are being made: one that comes again would wait for itself. */
    const under = [];
    /**
     * @param {string} name
     * @returns {string}
     */
    function address(name) {
      const known = addresses[name];
      if (known) return known;
      const file = files[name];
      if (!file || under.includes(name)) throw new Error(`${name} is ${file ? "its own beginning" : "missing"}`);
      under.push(name);
      const script = (file.text ?? "").replace(IMPORT, (_, before, to) => `${before}"${address(nameOf(name, to))}"`);
      under.pop();
      return (addresses[name] = URL.createObjectURL(new Blob([script], { type: file.type })));
    }
    return { addresses, address };
  }

  const page = typeof document !== "undefined";
  if (!page) {
    /** Questions that come before there is anyone to answer them.
     * @type {MessageEvent[]} */
    const early = [];
    const hold = (/** @type {MessageEvent} */ event) => void early.push(event);
    addEventListener("message", hold);
    const begin = async () => {
      const first = await new Promise((got) => addEventListener("message", got, { once: true }));
      const { addresses, address } = unfold(first.data);
      address("pkg/jointwise_planner.js");
      Object.assign(globalThis, { jointwiseInside: { addresses } });
      await import(address("planner-worker.js"));
      removeEventListener("message", hold);
      for (const { data } of early.slice(1)) dispatchEvent(new MessageEvent("message", { data }));
    };
    void begin();
    return;
  }
  const raw = JSON.parse(document.getElementById("inside")?.textContent ?? "{}");
  const { addresses, address } = unfold(raw.files);
  // What is asked for by its name only; the worker is this script. What is no script is read where it is used.
  for (const name of Object.keys(raw.files)) if (name.endsWith(".js")) address(name);
  addresses["planner-worker.js"] = address("share/boot.js");
  Object.assign(globalThis, { jointwiseInside: { addresses, ...raw } });
  const start = document.createElement("script");
  start.type = "module";
  start.src = address("app.js");
  document.head.append(start);
})();
