import { faultAt, strayField, valueAt } from './text/check.js';
import type { Path } from './text/input-error.js';
import { knownNames } from './text/near.js';
import type { FigureSource, Json } from './text/source.js';

/** The field with which a part says whose twin it is. */
export const TWIN_OF = 'twin of';

/**
 * The figure with its twins written out: a part that is the `twin of` an earlier one has all fields of that one, but for
 * those that it gives itself.
 * @throws InputError for a twin of a part that there is not so far
 */
export function withTwins(source: FigureSource): FigureSource {
  const parts = valueAt(source, ['parts']);
  const { data } = source;
  if (!Array.isArray(parts) || !parts.some(isTwin) || !isFields(data)) return source;
  const byName = new Map<string, Fields>();
  const whole = parts.map((part, i): Json => {
    if (!isFields(part)) return part;
    const written = isTwin(part) ? writtenOut(source, part, ['parts', i], byName) : part;
    if (typeof written.name === 'string') byName.set(written.name, written);
    return written;
  });
  return { ...source, data: { ...data, parts: whole } };
}

type Fields = { [field: string]: Json };

const isFields = (value: Json): value is Fields =>
  value !== null && typeof value === 'object' && !Array.isArray(value);

/** Whether a part says that it is a twin. */
export const isTwin = (part: Json): boolean => isFields(part) && Object.hasOwn(part, TWIN_OF);

function writtenOut(
  source: FigureSource,
  part: Fields,
  path: Path,
  byName: ReadonlyMap<string, Fields>,
): Fields {
  const { [TWIN_OF]: of, ...own } = part;
  const other = byName.get(String(of));
  if (other === undefined)
    throw faultAt(
      source,
      [...path, TWIN_OF],
      `name a part before it; ${knownNames(String(of), [...byName.keys()], 'part')}`,
    );
  if (Object.hasOwn(own, 'kind'))
    throw strayField(
      source,
      [...path, 'kind'],
      `leave it out: a twin is of the same kind, '${String(other.kind)}'`,
    );
  const { name: _, ...taken } = other;
  return { ...taken, ...own };
}
