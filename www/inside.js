// A page saved as one file has the site's files inside it; everywhere else there are none, and they
// come from the host. `share/boot.js` puts them there before anything else runs.

/** @typedef {{ addresses: Record<string, string>, files: Record<string, { type: string, text?: string, base64?: string }>, scenario: string, step: number }} Inside */

/** @type {Inside | null} */
export const inside = /** @type {any} */ (globalThis).jointwiseInside ?? null;

/**
 * Where a file of the site is kept in this page.
 * @param {string} name from the site's root
 * @returns {string | undefined}
 */
export const addressInside = (name) => inside?.addresses[name];
