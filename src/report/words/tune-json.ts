import type { Change, Tuned } from '../../tune/tune.js';
import { scorecardAsJson } from './scorecard-json.js';
import { remedyInShort, troubleInWords } from './tune-words.js';

/** What `tune --json` prints and `tune.json` holds. Lengths in mm, angles in degrees. */
export function tunedAsJson(name: string, file: string, tuned: Tuned, files: readonly string[]): object {
  const { card, troubles, remedies, nearest, ties, leftOut, tried, finished } = tuned;
  return {
    format: 'tune 1',
    figure: name,
    file,
    works: card.works,
    troubles: troubles.map((trouble) => ({ ...trouble, inWords: troubleInWords(trouble) })),
    remedies: remedies.map((remedy, i) => ({
      file: files[i],
      inWords: remedyInShort(remedy),
      changes: remedy.changes.map(plain),
      cuts: remedy.cuts,
      stiffener: remedy.stiffener,
      costs: { wants: remedy.wantLosses, card: remedy.cardLosses },
      byHand: remedy.byHand,
      least: remedy.least && { changes: remedy.least.changes.map(plain), byHand: remedy.least.byHand },
      ties: remedy.ties,
      cost: remedy.cost,
      wants: remedy.card.wants.map(({ name, value, unit }, want) => ({
        name,
        unit,
        before: card.wants[want].value,
        after: value,
      })),
      scorecard: scorecardAsJson(remedy.card),
    })),
    nearest:
      remedies.length > 0 || card.works
        ? null
        : {
            changes: nearest.changes.map(plain),
            scorecard: scorecardAsJson(nearest.card),
            catches: nearest.catches,
          },
    ties,
    leftOut,
    tried,
    finished,
    scorecard: scorecardAsJson(card),
  };
}

const plain = ({ setting: { name, unit, place }, from, to }: Change) => ({
  dim: name,
  field: place.join('.'),
  unit,
  from,
  to,
});
