// Keeps the whole site on the device, so that it works in a shop without network. Every version
// has a cache of its own: the old one serves until the new one is whole and the maker takes it.
//
// A plain script: module workers are younger than the browsers that tablets have.
importScripts("./sw-files.js");

const { version, files } = self.SITE;
const HERE = new URL("./", self.location.href);
// Several copies may be hosted under one origin, and each tidies up after itself only.
const OURS = `jointwise ${HERE.pathname} `;
const NAME = OURS + version;

/** A file is kept under what it holds, so that the next version takes over what did not change. */
const keyOf = (name) => new URL(`${name}?kept=${files[name]}`, HERE).href;

/** The name in the list that a request asks for; nothing for what is not of this site. */
function nameOf(request) {
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== HERE.origin || !url.pathname.startsWith(HERE.pathname)) return undefined;
  let name;
  try {
    name = decodeURIComponent(url.pathname.slice(HERE.pathname.length));
  } catch {
    return undefined;
  }
  if (name === "" || name === "index.html") return "./";
  return Object.hasOwn(files, name) ? name : undefined;
}

const fresh = (name) => fetch(new URL(name, HERE), { cache: "no-cache" });

async function keepOne(cache, name) {
  const key = keyOf(name);
  const answer = (await caches.match(key)) ?? (await fresh(name));
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  await cache.put(key, answer);
}

async function keepAll() {
  const cache = await caches.open(NAME);
  try {
    await Promise.all(Object.keys(files).map((name) => keepOne(cache, name)));
  } catch (error) {
    // A version that is not whole is none.
    await caches.delete(NAME);
    throw error;
  }
}

/** A full device throws away what sites keep. It is kept anew, unless the host has another version by now: that one comes by itself. */
async function keepAgain() {
  try {
    const list = await fresh("sw-files.js");
    if ((await list.text()).includes(version)) await keepAll();
  } catch {
    // No network: the next visit tries again.
  }
}

self.addEventListener("install", (event) => event.waitUntil(keepAll()));

self.addEventListener("activate", (event) => {
  const tidy = async () => {
    const names = await caches.keys();
    await Promise.all(names.filter((name) => name.startsWith(OURS) && name !== NAME).map((name) => caches.delete(name)));
    await self.clients.claim();
  };
  event.waitUntil(tidy());
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const name = nameOf(event.request);
  if (name === undefined) return;
  const answer = async () => {
    const kept = await (await caches.open(NAME)).match(keyOf(name));
    if (!kept && name === "./") event.waitUntil(keepAgain());
    return kept ?? fetch(event.request);
  };
  event.respondWith(answer());
});
