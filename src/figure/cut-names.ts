/** What the two numbers of a pair are called, by the field that holds them; those of any other pair are x and y. */
const PAIRS: Readonly<Record<string, readonly [string, string]>> = {
  glue: ['left', 'right'],
  panels: ['left', 'right'],
  feet: ['left', 'right'],
  widths: ['left', 'right'],
  layers: ['left', 'right'],
  size: ['length', 'width'],
};

/**
 * What a maker calls the number at a path of a part's fields.
 * @param words other names of fields
 * @example cutName(['supports', 1, 'line'], {}) // 'support 2 line'
 * @example cutName(['glue', 0], {}) // 'glue left'
 */
export function cutName(
  path: readonly (string | number)[],
  words: Readonly<Record<string, string>> = {},
): string {
  const said: string[] = [];
  path.forEach((step, i) => {
    if (typeof step === 'string') {
      if (step !== 'polygon') said.push(words[step] ?? step.replace('outlines', 'outline'));
      return;
    }
    const holder = String(path[i - 1]);
    if (i < path.length - 1) said.push(`${said.pop()?.replace(/s$/, '')} ${step + 1}`);
    else said.push((PAIRS[holder] ?? ['x', 'y'])[step]);
  });
  return said.join(' ');
}
