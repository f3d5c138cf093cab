/** Letters that are read from right to left: Hebrew, Arabic and the scripts beside them (Unicode, UAX #9, types R and AL). */
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff]/;

/**
 * The words of a line in the order in which they stand on paper, from the left, in a line that is read from the left: words
 * that are read from the right, and numbers between them, change places (UAX #9, N1, N2 and L2, with whole words as
 * units). The letters of a word stay in their order: the font's own rules lay them from the right.
 * @example inPlace('4 אחת שתיים') // '4 שתיים אחת'
 */
export function inPlace(text: string): string {
  const words = text.split(/( +)/);
  const isBack = (word: string) => RIGHT_TO_LEFT.test(word);
  const out: string[] = [];
  for (let i = 0; i < words.length; i++) {
    if (!isBack(words[i])) {
      out.push(words[i]);
      continue;
    }
    // As far as the last such word before one that is read from the left.
    let last = i;
    for (let j = i + 1; j < words.length && (isBack(words[j]) || !/\p{L}/u.test(words[j])); j++)
      if (isBack(words[j])) last = j;
    out.push(...words.slice(i, last + 1).reverse());
    i = last;
  }
  return out.join('');
}
