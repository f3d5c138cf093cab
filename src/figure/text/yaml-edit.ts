import { isCollection, isNode, isPair, type Node, parseDocument } from 'yaml';

/** The text of a figure file that was read before, as a tree that knows where each value stands. */
export const toBeEdited = (text: string) => parseDocument(text, { schema: 'core', uniqueKeys: false });

/** Where a value ends. Fields or a list on lines of their own count what follows as theirs; their last value doesn't. */
export function endOf(node: Node): number {
  const last = isCollection(node) && !node.flow ? node.items.at(-1) : undefined;
  const value = isPair(last) ? last.value : last;
  return isNode(value) ? endOf(value) : (node.range?.[1] ?? 0);
}
