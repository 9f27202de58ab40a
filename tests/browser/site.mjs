// Serves the built site to the browser tests.
//
// The site lies under a path, not at the root of the host, so that an address that is not
// relative fails here and not at the maker's host.

import { createServer } from "node:http";
import { readFile, stat } from "node:fs/promises";
import { extname, join, normalize, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";

const PREFIX = "/some/shop/";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".webmanifest": "application/manifest+json",
  ".wasm": "application/wasm",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".txt": "text/plain; charset=utf-8",
};

/** The workspace. */
export const ROOT = fileURLToPath(new URL("../../", import.meta.url));

/** The built site's folder. */
export const SITE =
  process.env.JOINTWISE_SITE ?? join(process.env.CARGO_TARGET_DIR ?? join(ROOT, "target"), "site");

/** The scenario that tests use which ask for no other: it has a box, a runner, a front and a back. */
export const EXAMPLE = "mudroom-bins";

/** The scenario files that the page offers: `[{ file, title, text }]`. */
export async function scenarios() {
  const folder = join(SITE, "scenarios");
  const list = JSON.parse(await readFile(join(folder, "index.json"), "utf8"));
  if (list.length === 0) throw new Error("the site offers no scenario");
  return Promise.all(
    list.map(async ({ file, title }) => ({
      file,
      title,
      name: file.replace(/\.json$/, ""),
      text: await readFile(join(folder, file), "utf8"),
    })),
  );
}

/**
 * Starts the server on a free port; `address` ends with a slash. `instead` holds texts that are
 * served in the place of files, by their names; `asked` the names of files that were asked for, in their order.
 */
export async function serve(instead = new Map()) {
  const asked = [];
  const server = createServer(async (request, response) => {
    const found = await find(new URL(request.url, "http://localhost").pathname);
    if (!found) {
      response.writeHead(404, { "content-type": "text/plain" }).end("not found\n");
      return;
    }
    response.writeHead(200, {
      "content-type": TYPES[extname(found.file)] ?? "application/octet-stream",
      "cache-control": "no-store",
    });
    const name = relative(SITE, found.file).split(sep).join("/");
    asked.push(name);
    response.end(instead.get(name) ?? found.body);
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  const { port } = server.address();
  return {
    address: `http://127.0.0.1:${port}${PREFIX}`,
    instead,
    asked,
    close: () => {
      server.closeAllConnections();
      server.close();
    },
  };
}

async function find(path) {
  if (!path.startsWith(PREFIX)) return undefined;
  let file = normalize(join(SITE, decodeURIComponent(path.slice(PREFIX.length))));
  if (file !== normalize(SITE) && !file.startsWith(SITE.replace(/[/\\]$/, "") + sep)) return undefined;
  try {
    if ((await stat(file)).isDirectory()) file = join(file, "index.html");
    return { file, body: await readFile(file) };
  } catch {
    return undefined;
  }
}
