// Offers bytes as a file.
import { h } from "../dom.js";

/**
 * @param {string} name
 * @param {Uint8Array<ArrayBuffer>} bytes
 * @param {string} type
 */
export function saveBytes(name, bytes, type) {
  const url = URL.createObjectURL(new Blob([bytes], { type }));
  h("a", { href: url, download: name }).click();
  // The browser reads the address after this turn; freeing it at once loses the file in some.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
