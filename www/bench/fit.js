// Words that run over their place.

/**
 * Sets them smaller, three times at most, and then takes some of the picture's place, before they scroll.
 * @param {HTMLElement} words
 * @param {HTMLElement} beside what holds them and the picture
 */
export function fit(words, beside) {
  const over = () => words.scrollHeight > words.clientHeight + 1;
  delete words.dataset.tight;
  delete beside.dataset.wordy;
  for (const tight of ["1", "2", "3"]) {
    if (!over()) return;
    words.dataset.tight = tight;
  }
  if (over()) beside.dataset.wordy = "";
}
