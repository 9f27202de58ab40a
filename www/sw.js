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

async function keepOne(cache, name) {
  const key = keyOf(name);
  const known = await caches.match(key);
  const answer = known ?? (await fetch(new URL(name, HERE), { cache: "no-cache" }));
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  await cache.put(key, answer);
}

self.addEventListener("install", (event) => {
  const keepAll = async () => {
    const cache = await caches.open(NAME);
    try {
      await Promise.all(Object.keys(files).map((name) => keepOne(cache, name)));
    } catch (error) {
      // A version that is not whole is none.
      await caches.delete(NAME);
      throw error;
    }
  };
  event.waitUntil(keepAll());
});

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
    const cache = await caches.open(NAME);
    return (await cache.match(keyOf(name))) ?? fetch(event.request);
  };
  event.respondWith(answer());
});
