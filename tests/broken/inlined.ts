import { compileArithmetic, parseArithmetic } from '../../src/figure/text/arithmetic.js';
import type { Json } from '../../src/figure/text/source.js';

type Fields = { [field: string]: Json };

/** Fields whose text is a name, never arithmetic. */
const NAMES = new Set(['name', 'kind', 'on', 'panel', 'between', 'passes', 'piece', 'figure']);

/** A figure with fixed dims as a maker writes it who knows no dims: every number in its place, none tied to another. */
export function inlined(figure: Fields): Fields {
  const dims = figure.dims as Fields;
  const values = new Map<string, number | string>();
  const given = (written: Json): number | string => {
    if (typeof written === 'number') return written;
    if (typeof written === 'string') return worked(written) ?? written;
    return (written as { choose: (number | string)[] }).choose[0];
  };
  const worked = (text: string): number | string | null => {
    if (Object.hasOwn(dims, text)) return known(text);
    try {
      const slots: number[] = [];
      const { formula } = compileArithmetic(parseArithmetic(text), (name) => {
        if (!Object.hasOwn(dims, name)) throw new Error(`no dim ${name}`);
        return slots.push(Number(known(name))) - 1;
      });
      return Math.round(1000 * formula(Float64Array.from(slots))) / 1000;
    } catch {
      return null;
    }
  };
  const known = (name: string): number | string => {
    const value = values.get(name) ?? given(dims[name]);
    values.set(name, value);
    return value;
  };
  const plain = (value: Json, field: string): Json => {
    if (Array.isArray(value)) return value.map((inner) => plain(inner, field));
    if (value !== null && typeof value === 'object')
      return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, plain(inner, name)]));
    return typeof value === 'string' && !NAMES.has(field) ? (worked(value) ?? value) : value;
  };
  const { dims: _, ...rest } = figure;
  return { ...rest, parts: plain(rest.parts, 'parts') };
}
