import type { Scorecard } from '../../score/scorecard.js';
import { findingInShort, quoted, unknownInWords } from './finding-words.js';

/**
 * What a candidate fails at first, in the order of the scorecard: limits, then wants. Without page angles and other
 * measures (but with lines of the file), so that like failures read alike and can be counted. Null when it works.
 * @example 'boat left catches on the left page'
 */
export function whatFails({ works, cannotBuild, limits, wants }: Scorecard): string | null {
  if (works) return null;
  if (cannotBuild !== null) return `cannot be built: ${cannotBuild.replace(MEASURE, '…')}`;
  const limit = limits.find(({ met, unknown }) => !met && unknown?.because !== 'it fails before');
  if (limit?.finding !== undefined) return findingInShort(limit.finding);
  if (limit !== undefined)
    return limit.unknown === undefined
      ? `breaks the limit ${quoted(limit.name)}`
      : unknownInWords(limit.unknown);
  const want = wants.find(({ met }) => !met);
  return want === undefined ? 'fails' : `misses ${quoted(want.name)}`;
}

const MEASURE = /(?<!\(line )(?<![\p{L}\d.])[−-]?\d+(\.\d+)?( mm|°)?(?![\p{L}\d])/gu;
