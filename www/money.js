// What the things to buy cost, as far as their prices are known.

/** @typedef {import("./types").ShoppingItem} ShoppingItem */

/** @param {number} thousandths of any money */
export const money = (thousandths) => (thousandths / 1000).toFixed(2);

/**
 * @param {ShoppingItem[]} shopping
 * @returns {{ total: number, priced: boolean, missing: number }} In thousandths; whether any price is known; how many
 * things to buy have none.
 */
export function costOf(shopping) {
  const known = shopping.filter((item) => item.cost !== undefined);
  const missing = shopping.filter((item) => item.cost === undefined && item.buy > 0).length;
  return { total: known.reduce((sum, item) => sum + (item.cost ?? 0), 0), priced: known.length > 0, missing };
}
