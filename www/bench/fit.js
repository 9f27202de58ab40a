// Words that run over their place.

/**
 * Sets them smaller, three times at most, before they scroll.
 * @param {HTMLElement} words
 */
export function fit(words) {
  delete words.dataset.tight;
  for (const tight of ["1", "2", "3"]) {
    if (words.scrollHeight <= words.clientHeight + 1) break;
    words.dataset.tight = tight;
  }
}
