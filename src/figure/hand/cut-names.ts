/** Fields whose two values are those of the left and the right side. */
export const SIDES: ReadonlySet<string> = new Set(['glue', 'panels', 'feet', 'widths', 'layers']);

/** What the two numbers of a pair are called, by the field that holds them. */
function pairNames(holder: string): readonly [string, string] {
  if (SIDES.has(holder)) return ['left', 'right'];
  return holder === 'size' ? ['length', 'width'] : ['x', 'y'];
}

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
    else said.push(pairNames(holder)[step]);
  });
  return said.join(' ');
}
