import type * as z from 'zod';
import { label } from '../parts/label.js';
import { checked, faultAt, valueAt } from './text/check.js';
import { described, type Path } from './text/input-error.js';
import { knownNames } from './text/near.js';
import type { FigureSource, Json } from './text/source.js';

/** An entry of a list of parts or wants: its name and kind, and its other fields, checked by the schema of its kind. */
export interface Entry {
  readonly name: string;
  readonly kind: string;
  readonly fields: unknown;
  readonly path: Path;
}

/**
 * Reads a list whose entries are fields with a `name` of their own, a `kind`, and what that kind asks for.
 * @param list the field that holds the list
 * @param schemaOf the fields of each kind beside name and kind
 */
export function readEntries(
  source: FigureSource,
  list: string,
  schemaOf: Readonly<Record<string, z.ZodType>>,
  most: number,
): Entry[] {
  const entries = valueAt(source, [list]) ?? [];
  if (!Array.isArray(entries))
    throw faultAt(source, [list], "give a list: each entry begins with '- name: …', and has a kind");
  if (entries.length > most) throw faultAt(source, [list], `give at most ${most}`);
  const taken = new Set<string>();
  // Data made by hand may have holes, which are skipped otherwise.
  return Array.from(entries, (entry: Json | undefined, i) => {
    const path: Path = [list, i];
    if (entry === undefined || entry === null || typeof entry !== 'object' || Array.isArray(entry))
      throw faultAt(source, path, "give fields, beginning with 'name: …' and 'kind: …'");
    const name = checked(source, [...path, 'name'], label());
    if (taken.has(name))
      throw faultAt(source, [...path, 'name'], 'give each a name of its own', `${described(name)} twice`);
    taken.add(name);
    const { name: _, kind, ...rest } = entry;
    const kinds = Object.keys(schemaOf);
    if (typeof kind !== 'string' || !Object.hasOwn(schemaOf, kind))
      throw faultAt(source, [...path, 'kind'], knownNames(String(kind ?? ''), kinds, 'kind'));
    return { name, kind, fields: checked(source, path, schemaOf[kind], rest), path };
  });
}
