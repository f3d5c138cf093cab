import type { BuiltPart } from './opened.js';

/** The part that a panel or crease belongs to, by its name, which begins with the part's; null for the pages. */
export function partOf(name: string, parts: readonly string[]): string | null {
  return longest(parts.filter((part) => name === part || name.startsWith(`${part} `)));
}

function longest(names: readonly string[]): string | null {
  return names.reduce<string | null>((best, name) => (name.length > (best?.length ?? 0) ? name : best), null);
}

/** Parts that hold a link, by what they are joined to. */
export const HOLDS_LINKS = new Set(['pivot', 'glued-end', 'tongue']);

/**
 * Parts on which others depend: for some parts, these and all that their motion follows from. A part follows from what
 * it stands on; a link also from the hubs and the like that hold it.
 */
export function withSupports(named: ReadonlySet<string>, parts: readonly BuiltPart[]): Set<string> {
  const names = parts.map(({ name }) => name);
  const supports = new Map<string, Set<string>>(names.map((name) => [name, new Set()]));
  for (const { name, kind, fields } of parts)
    for (const word of wordsIn(fields)) {
      const other = partOf(word, names);
      if (other === null || other === name) continue;
      supports.get(name)?.add(other);
      if (HOLDS_LINKS.has(kind)) supports.get(other)?.add(name);
    }
  const all = new Set(named);
  for (const name of all) for (const support of supports.get(name) ?? []) all.add(support);
  return all;
}

/** For each part, itself and all parts whose motion follows from it. */
export function dependents(parts: readonly BuiltPart[]): Map<string, Set<string>> {
  const all = new Map(parts.map(({ name }) => [name, new Set([name])]));
  for (const { name } of parts)
    for (const support of withSupports(new Set([name]), parts)) all.get(support)?.add(name);
  return all;
}

/** Every text in the fields of a part. */
export function wordsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(wordsIn);
}
