import type { Goal } from '../../figure/wants.js';
import { isTrend } from '../../insight/sensitivity/rank-correlation.js';
import type { Scorecard } from '../../score/scorecard.js';
import { WORKS } from '../../study/scores.js';
import { type Failure, type Tally, tally } from '../../study/tally.js';
import { capital, counted } from '../../text/phrases.js';
import type { StudyReport } from '../study-report.js';
import { achieved } from './achieved.js';
import { gradesInWords } from './grade-words.js';
import { share } from './numbers.js';
import { ownInWords } from './own-words.js';
import { faults } from './scorecard-words.js';

type Studied = Omit<StudyReport, 'summary' | 'facts'>;

/**
 * How a study came out, in sentences: how many work, which is best, what fails most often, which dim matters.
 * @param nearest the scorecard of the best candidate where none works: what is wrong with it is said
 */
export function summaryOf(study: Studied, nearest: Scorecard | null, goals: readonly Goal[]): string[] {
  const { table, layout, ranking, spread } = study;
  const all = tally(table, layout, ranking);
  const even = tally(table, layout, spread);
  const [best] = ranking;
  const tried = counted(table.size, 'dummy', 'dummies');
  const head =
    all.works === 0
      ? `None of ${tried} works.`
      : `${all.works.toLocaleString('en')} of ${tried} ${all.works === 1 ? 'works' : 'work'} (${share(all.works, table.size)}).`;
  return [
    head,
    ...(all.works > 0 ? [`The best is dummy ${best + 1}: ${achieved(study, best)}.`] : []),
    ...ownInWords(study),
    ...gradesInWords(study),
    ...mostFrequent(study, even),
    ...(all.works > 0 ? steadiest(study) : []),
    ...(all.works === 0 && nearest !== null ? nearestInWords(best, nearest, goals) : []),
    ...unscored(all),
  ];
}

/** What fails most often among those spread evenly through the ranges: picked ones fail less. */
function mostFrequent(
  { table, spread, hindrances }: Pick<Studied, 'table' | 'spread' | 'hindrances'>,
  { works, fails, notBuilt, failures }: Tally,
): string[] {
  const of = works + fails;
  const often = ({ name, count }: Failure) => `'${name}' (${share(count, of)})`;
  const [first, second] = failures;
  const limit = failures.find((failure) => failure.isLimit);
  const sentences: string[] = [];
  if (first) {
    const among = [
      spread.length < table.size
        ? `the ${counted(spread.length, 'dummy', 'dummies')} spread evenly through the ranges`
        : '',
      notBuilt > 0 ? 'those that can be built' : '',
    ].filter((each) => each !== '');
    const whose = among.length === 0 ? '' : `Of ${among.join(', of ')}, `;
    sentences.push(
      capital(`${whose}what fails most often is ${often(first)}${second ? `, then ${often(second)}` : ''}.`),
    );
    if (limit && limit !== first) sentences.push(`The limit that fails most often is ${often(limit)}.`);
  }
  if (notBuilt > 0) {
    const why = hindrances.length > 0 ? `, most often for this: ${hindrances[0].reason}` : '';
    sentences.push(`${share(notBuilt, of + notBuilt)} of them can't be built at all${why}.`);
  }
  return sentences;
}

/** The dim with which the share that works goes most steadily, if that is more than chance. */
function steadiest({ sensitivity, dims, plain }: Studied): string[] {
  const ranks = sensitivity
    .filter(({ score, rankCorrelation }) => score === WORKS.name && rankCorrelation !== null)
    .map(({ dim, rankCorrelation }) => ({ dim, rank: rankCorrelation ?? 0 }))
    .sort((a, b) => Math.abs(b.rank) - Math.abs(a.rank));
  const [first] = ranks;
  if (first === undefined || !isTrend(first.rank, plain.size, ranks.length)) return [];
  const { dim, rank } = first;
  const options = dims.find(({ name }) => name === dim)?.options;
  const [less, more] = rank > 0 ? [0, 1] : [1, 0];
  const trend =
    options?.length === 2
      ? `More work with ${dim} '${options[more]}' than with '${options[less]}'`
      : `The larger ${dim} is, the ${rank > 0 ? 'more' : 'fewer'} work`;
  return [`${trend}: no other dim has so steady a trend.`];
}

function nearestInWords(candidate: number, card: Scorecard, goals: readonly Goal[]): string[] {
  return [
    `The nearest is dummy ${candidate + 1}. What is wrong with it:`,
    ...faults(card, goals).map((fault) => `· ${fault}`),
  ];
}

function unscored({ notScored }: Tally): string[] {
  if (notScored === 0) return [];
  return [`${counted(notScored, 'candidate')} could not be scored; candidates.csv says why.`];
}
