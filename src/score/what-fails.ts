import type { LimitScore, Scorecard } from './scorecard.js';

/**
 * What a candidate fails at first, in the order of the scorecard: limits, then wants. Without page angles and other
 * measures (but with lines of the file), so that like failures read alike and can be counted. Null when it works.
 * @example 'boat left catches on the left page'
 */
export function whatFails(card: Scorecard): string | null {
  const { works, cannotBuild, limits, wants } = card;
  if (works) return null;
  if (cannotBuild !== null) return `cannot be built: ${cannotBuild.replace(MEASURE, '…')}`;
  const limit = limits.find(({ met }) => !met);
  if (limit !== undefined) return unquoted(limitInWords(limit, card));
  const want = wants.find(({ met }) => !met);
  return want === undefined ? 'fails' : `misses '${want.name}'`;
}

const MEASURE = /(?<!\(line )(?<![\p{L}\d.])[−-]?\d+(\.\d+)?( mm|°)?(?![\p{L}\d])/gu;

function limitInWords({ name, reason }: LimitScore, { locks, clash }: Scorecard): string {
  if (name === 'shuts' && locks !== null)
    return `${locks.part} ${locks.pageAngle === 180 ? 'keeps the page from opening flat' : 'locks before the page is shut'}`;
  if (name === 'catch' && clash.between !== null) {
    // A page comes last: it is the card that catches on it.
    const [one, other] = clash.between;
    const first = isPage(one) ? other : one;
    return `${said(first)} catches on ${said(first === one ? other : one)}`;
  }
  return reason?.replace(/ at a page angle of [\d.]+°/, '') ?? `breaks the limit '${name}'`;
}

const isPage = (panel: string): boolean => panel === 'left page' || panel === 'right page';
const said = (panel: string): string => (isPage(panel) ? `the ${panel}` : panel);

/** Without the quotes around names; those inside a name stay. */
function unquoted(words: string): string {
  return words
    .replace(/'(left|right) page'/g, 'the $1 page')
    .replace(/(?<![\p{L}\p{N}])'|'(?![\p{L}\p{N}])/gu, '');
}
