import type { Path } from '../text/input-error.js';
import type { Json } from '../text/source.js';

/** The data of a figure file with something else in place of each outline that is a drawing: these stand in parts. */
export function withOutlines(data: Json, outline: (at: Path, written: Json) => Json): Json {
  const within = (value: Json, at: Path): Json => {
    if (Array.isArray(value)) return value.map((inner, i) => within(inner, [...at, i]));
    if (value === null || typeof value !== 'object') return value;
    if (Object.hasOwn(value, 'svg')) return outline(at, value);
    return Object.fromEntries(
      Object.entries(value).map(([field, inner]) => [field, within(inner, [...at, field])]),
    );
  };
  if (data === null || typeof data !== 'object' || Array.isArray(data) || !Object.hasOwn(data, 'parts'))
    return data;
  return { ...data, parts: within(data.parts, ['parts']) };
}
