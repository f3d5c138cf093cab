import type { Scorecard } from '../../score/scorecard.js';
import { meetingInWords, reasonOf } from './finding-words.js';

/** A scorecard as `check --json`, `check --poses` and `tune --json` write it: its data, and beside each finding its words. */
export function scorecardAsJson(card: Scorecard): object {
  const { wants, limits, bind, locks } = card;
  return {
    ...card,
    wants: wants.map(withReason),
    limits: limits.map(withReason),
    bind: { ...bind, where: bind.at === null ? null : meetingInWords(bind.at) },
    locks: locks === null ? null : { ...locks, where: meetingInWords(locks.at) },
  };
}

function withReason<Score extends Parameters<typeof reasonOf>[0]>(score: Score): object {
  const reason = reasonOf(score);
  return reason === '' ? score : { ...score, reason };
}
