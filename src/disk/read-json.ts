import { readFileSync } from 'node:fs';
import type * as z from 'zod';

/** What a file of JSON holds; null when it can't be read, or holds something else than the schema says. */
export function readJson<Schema extends z.ZodType>(path: string, schema: Schema): z.output<Schema> | null {
  let found: unknown;
  try {
    found = JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return null;
  }
  return schema.safeParse(found).data ?? null;
}
