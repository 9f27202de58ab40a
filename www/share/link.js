// A whole build in an address: the scenario, packed, and the step. It stands behind the `#`, which
// no browser sends to a host, so that it goes from one device to the other and nowhere else.
//
//     #open=1.PACKED&step=7
//
// 1 is the version of the packing: UTF-8, deflate without header (RFC 1951), base64url (RFC 4648
// section 5) without filling.

import { LONGEST } from "../scenario.js";

const VERSION = "1";
/** Longest packed text that is taken: what is larger was not made here. A few bytes can unpack to gigabytes, so what
 * comes out of it is bounded besides. */
const MOST_PACKED = 200_000;

/** @returns {boolean} */
export const canPack = () => "CompressionStream" in window;

/** @param {Uint8Array} bytes */
function base64url(bytes) {
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

/** @param {string} text */
function bytesOf(text) {
  const plain = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
  return Uint8Array.from(plain, (letter) => letter.charCodeAt(0));
}

/**
 * All that a stream gives, up to a limit.
 * @param {ReadableStream<Uint8Array>} stream
 * @param {number} most bytes
 */
async function gather(stream, most) {
  const reader = stream.getReader();
  /** @type {Uint8Array<ArrayBuffer>[]} */
  const chunks = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > most) {
      await reader.cancel();
      throw new Error("too long");
    }
    chunks.push(new Uint8Array(value));
  }
  return new Uint8Array(await new Blob(chunks).arrayBuffer());
}

/**
 * @param {string} text
 * @returns {Promise<string>}
 */
async function pack(text) {
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  return `${VERSION}.${base64url(await gather(stream, LONGEST))}`;
}

/**
 * @param {string} packed
 * @returns {Promise<string>}
 * @throws when it is none, of another version, or too long
 */
export async function unpack(packed) {
  const [version, body, ...rest] = packed.split(".");
  if (version !== VERSION || body === undefined || rest.length > 0) throw new Error("another version");
  if (body.length > MOST_PACKED) throw new Error("too long");
  const stream = new Blob([bytesOf(body)]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
  return new TextDecoder("utf-8", { fatal: true }).decode(await gather(stream, LONGEST));
}

/**
 * The address of a build at a step, on the host this page came from.
 * @param {string} text of the scenario
 * @param {number} step
 */
export async function linkTo(text, step) {
  const address = new URL(location.href);
  address.search = "";
  address.hash = `open=${await pack(text)}&step=${step}`;
  return address.href;
}

/**
 * What an address carries, or nothing.
 * @param {string} hash
 * @returns {{ packed: string, step: number } | null}
 */
export function carried(hash) {
  const found = /^#open=([\w.-]+)(?:&step=(\d{1,4}))?$/.exec(hash);
  return found ? { packed: found[1] ?? "", step: Number(found[2] ?? 1) || 1 } : null;
}
