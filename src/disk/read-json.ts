import type * as z from 'zod';
import { readWhole } from './read-file.js';

/** Larger than any file of JSON that a study keeps, bytes. Parsed, it takes several times that. */
const MOST_JSON = 100_000_000;

/** What a file of JSON holds; null when it can't be read, or holds something else than the schema says. */
export function readJson<Schema extends z.ZodType>(path: string, schema: Schema): z.output<Schema> | null {
  let found: unknown;
  try {
    found = JSON.parse(readWhole(path, MOST_JSON)?.toString('utf8') ?? '');
  } catch {
    return null;
  }
  return schema.safeParse(found).data ?? null;
}
