/**
 * A file name that is safe on any system, from a name that may hold anything: small letters, digits and hyphens.
 * @param taken names given before; the new one is added
 * @example fileName('nudges', 'He leans!', 'svg', new Set()) // 'nudges-he-leans.svg'
 */
export function fileName(what: string, name: string, ending: string, taken: Set<string>): string {
  const plain = name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 40)
    .replace(/^-+|-+$/g, '');
  const stem = [what, plain].filter((part) => part !== '').join('-');
  let free = stem;
  for (let copy = 2; taken.has(free); copy++) free = `${stem}-${copy}`;
  taken.add(free);
  return `${free}.${ending}`;
}
