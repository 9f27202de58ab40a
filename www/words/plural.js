// One or several, as a language tells them apart.

/** @param {string} language */
export function plural(language) {
  const rules = new Intl.PluralRules(language);
  const isOne = (/** @type {number} */ n) => rules.select(n) === "one";
  return {
    isOne,
    count: (/** @type {number} */ n, /** @type {string} */ one, /** @type {string} */ other) => `${n} ${isOne(n) ? one : other}`,
  };
}
