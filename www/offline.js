// Has the browser keep the site, and tells when a new version waits to be taken.

/**
 * @typedef {object} Told
 * @property {() => void} kept the site works without network from now on
 * @property {() => void} newer a new version waits
 */

/** Takes the waiting version over; known once one waits.
 * @type {() => void} */
let takeOver = () => location.reload();

/** Loads the page anew with the version that waits. */
export function loadNewer() {
  takeOver();
}

/** @param {Told} told */
export async function keepOffline(told) {
  if (!("serviceWorker" in navigator) || !/^https?:$/.test(location.protocol)) return;
  const { serviceWorker } = navigator;
  const had = serviceWorker.controller !== null;
  if (had) told.kept();
  let asked = false;
  serviceWorker.addEventListener("controllerchange", () => {
    if (asked) location.reload();
    // Taken over by another tab: this one runs on with what it has loaded, and is told.
    else if (had) told.newer();
    else told.kept();
  });
  try {
    const found = await serviceWorker.register(new URL("./sw.js", import.meta.url), { updateViaCache: "none" });
    // A browser may refuse without an error.
    if (!found) return;
    const tell = () => {
      const { waiting } = found;
      if (!waiting || serviceWorker.controller === null) return;
      takeOver = () => {
        asked = true;
        waiting.postMessage("take over");
      };
      told.newer();
    };
    tell();
    found.addEventListener("updatefound", () => {
      found.installing?.addEventListener("statechange", tell);
    });
    // A page that stays open for days, as on a bench, looks for itself.
    setInterval(() => found.update().catch(() => {}), 60 * 60 * 1000);
  } catch (error) {
    // Refused by the browser or its settings: the page works, with the network.
    console.info("the site is not kept for use without network:", error);
  }
}
