import { isMap, isNode, isScalar } from 'yaml';
import type { Dims } from '../dims.js';
import type { FigureSource } from './source.js';
import { endOf, toBeEdited } from './yaml-edit.js';

/**
 * The text of the figure file with its free dims fixed at the values of a vector. Every other letter stays as it is,
 * comments included, save those inside a range that is fixed. A choice between words becomes a choice of one. Read again,
 * every dim has the same value; of a range that is fixed, the ends, the step and the unit are gone.
 */
export function toYaml(source: FigureSource, dims: Dims, vector: Float64Array): string {
  const { text } = source;
  const values = dims.values(vector);
  const fixed = vector.length > dims.freeDims.length ? dims.fixedDims : [];
  const names = new Set([...dims.freeDims, ...fixed].map(({ name }) => name));
  const written = toBeEdited(text).get('dims');
  const changes: { from: number; to: number; now: string }[] = [];
  for (const { key, value } of isMap(written) ? written.items : []) {
    const name = isScalar(key) ? String(key.value) : '';
    if (!names.has(name) || !isNode(value) || !value.range || !isScalar(key) || !key.range) continue;
    const chosen = values.get(name);
    const now = typeof chosen === 'number' ? String(chosen) : `{ choose: [${JSON.stringify(chosen)}] }`;
    const between = text.slice(key.range[1], value.range[0]);
    // Fields on lines of their own shrink to one line, beside the name.
    if (/^:\s*\n\s*$/.test(between)) changes.push({ from: key.range[1], to: endOf(value), now: `: ${now}` });
    else changes.push({ from: value.range[0], to: endOf(value), now });
  }
  return changes
    .sort((a, b) => b.from - a.from)
    .reduce((yaml, { from, to, now }) => yaml.slice(0, from) + now + yaml.slice(to), text);
}
