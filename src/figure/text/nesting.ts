import type { CST } from 'yaml';
import { quoted } from './input-error.js';

/** Deepest nesting of lists and fields; a figure file needs about eight. */
const DEEPEST = 30;

type Fail = (offset: number, found: string, remedy: string) => never;

/**
 * Refuses what is nested too deeply, and what a figure file has no need of, while the file is still a list of tokens.
 * The library composes its tree by recursion, and so deep a file as could be written on purpose ends the whole process.
 */
export function checkNesting(
  tokens: readonly CST.Token[],
  fail: Fail,
  unreadable: (offset: number, message: string) => never,
): void {
  let documents = 0;
  for (const token of tokens) {
    if (token.type === 'directive')
      fail(token.offset, quoted(token.source), 'leave out lines that begin with %');
    if (token.type === 'error') unreadable(token.offset, token.message);
    if (token.type !== 'document') continue;
    if (++documents > 1) fail(token.offset, 'a second document', 'keep one figure in a file');
    checkDepth(token, fail);
  }
}

function checkDepth(document: CST.Document, fail: Fail): void {
  const waiting: { token: CST.Token; depth: number }[] = [];
  if (document.value) waiting.push({ token: document.value, depth: 1 });
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { token, depth } = next;
    if (depth > DEEPEST) fail(token.offset, `nesting deeper than ${DEEPEST}`, 'write the figure flatter');
    if (!('items' in token)) continue;
    for (const { key, value } of token.items) {
      if (key) waiting.push({ token: key, depth: depth + 1 });
      if (value) waiting.push({ token: value, depth: depth + 1 });
    }
  }
}
