import type { Scorecard } from '../../score/scorecard.js';
import { meetingInWords, reasonOf } from './finding-words.js';

/** What tables say of a candidate in words: in the order of the columns that `Layout` gives them. */
export function rowWords(card: Scorecard): string[] {
  const { clash, bind, locks } = card;
  return [
    clash.between?.join(' and ') ?? '',
    bind.at === null ? '' : meetingInWords(bind.at),
    locks === null ? '' : `${locks.part}: ${meetingInWords(locks.at)}`,
    whyMissing(card),
  ];
}

/** Why figures are missing from a scorecard; empty where none is. */
function whyMissing({ cannotBuild, wants, limits }: Scorecard): string {
  if (cannotBuild !== null) return cannotBuild;
  const missing = [...wants, ...limits].filter(({ value }) => value === null);
  return [...new Set(missing.map((score) => reasonOf(score) || `${score.name} was not computed`))].join('; ');
}
