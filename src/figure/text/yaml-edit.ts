import {
  type Document,
  isCollection,
  isMap,
  isNode,
  isPair,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  parseDocument,
} from 'yaml';
import type { Path } from './input-error.js';

/** The text of a figure file that was read before, as a tree that knows where each value stands. */
export const toBeEdited = (text: string) => parseDocument(text, { schema: 'core', uniqueKeys: false });

/** The name of a field as it is read: what YAML takes for a number is its digits. */
export const nameOf = (pair: Pair): string => (isScalar(pair.key) ? String(pair.key.value) : '');

/** The value at a path; undefined where there is none. */
export function nodeIn({ contents }: Document, path: Path): Node | undefined {
  let node: unknown = contents;
  for (const step of path) {
    if (isMap(node)) node = node.items.find((pair) => nameOf(pair) === String(step))?.value;
    else node = isSeq(node) ? node.items[Number(step)] : undefined;
  }
  return isNode(node) ? node : undefined;
}

/** Where a value ends. Fields or a list on lines of their own count what follows as theirs; their last value doesn't. */
export function endOf(node: Node): number {
  const last = isCollection(node) && !node.flow ? node.items.at(-1) : undefined;
  const value = isPair(last) ? last.value : last;
  return isNode(value) ? endOf(value) : (node.range?.[1] ?? 0);
}
