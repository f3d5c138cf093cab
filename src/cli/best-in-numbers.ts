import type { StudyReport } from '../report/study-report.js';
import { achieved } from '../report/words/achieved.js';
import { COMMAND } from '../report/words/command.js';
import { decimal, withUnit } from '../report/words/numbers.js';
import { OWN } from '../report/words/own-words.js';

import { shellWord } from './shell-word.js';

/** How many of the best are listed. */
const LISTED = 5;

/**
 * The numbers of a study for the terminal: the dims of the best, what it and the next reach, and how to see it again.
 * @param folder where the study lies, once it is finished; null for one that can be gone on with
 */
export function inNumbers(
  report: StudyReport,
  file: string,
  folder: string | null,
  timings: { seconds: number },
): string[] {
  const { table, ranking, dims } = report;
  const [best] = ranking;
  const works = table.outcome(best) === 'works';
  const vector = table.vector(best);
  const values = dims.map(({ options }, dim) => (options === null ? vector[dim] : options[vector[dim]]));
  const width = Math.max(...dims.map(({ name }) => name.length));
  const shown = (value: string | number, unit: string) =>
    typeof value === 'string' ? value : unit === '' ? decimal(value, 2) : withUnit(value, unit);
  return [
    `Dims of dummy ${best + 1}`,
    ...dims.map(({ name, unit }, dim) => `  ${name.padEnd(width)}  ${shown(values[dim], unit)}`),
    '',
    works ? 'The best' : 'The nearest',
    ...ranking
      .slice(0, LISTED)
      .map((candidate, place) => `  ${place + 1}. dummy ${candidate + 1}: ${achieved(report, candidate)}`),
    ...yours(report),
    ...designsOfTheirOwn(report),
    '',
    `Scored ${table.size.toLocaleString('en')} in ${timings.seconds.toFixed(1)} s.`,
    ...(folder === null ? [] : waysOn(best, folder, works)),
    ...(works ? [] : wayToFree(file)),
  ];
}

/** What to do with the best of a study. */
function waysOn(best: number, folder: string, works: boolean): string[] {
  const ofStudy = (command: string) => `  ${COMMAND} ${command} ${shellWord(folder)} --rank 1`;
  return [
    `To see dummy ${best + 1} move:`,
    `${ofStudy('check')} --open`,
    ...(works ? ['To cut it:', ofStudy('sheets')] : []),
  ];
}

/** The maker's own dummy beside the best, where it is not among them. */
function yours(report: StudyReport): string[] {
  const { table, ranking } = report;
  const place = ranking.indexOf(OWN);
  if (!table.hasOwn || place < LISTED || table.outcome(OWN) !== 'works') return [];
  return [`  ${place + 1}. yours, dummy 1: ${achieved(report, OWN)}`];
}

/** What to do with a figure that does not work. */
export function wayToFree(file: string): string[] {
  return ['To look for the smallest changes that free it:', `  ${COMMAND} tune ${shellWord(file)}`];
}

/** The best are often copies of one another: these differ in their dims. */
function designsOfTheirOwn(report: StudyReport): string[] {
  const { different, ranking } = report;
  if (different.length < 2) return [];
  return [
    '',
    'Good and different',
    ...different.map(
      (candidate) =>
        `  ${ranking.indexOf(candidate) + 1}. dummy ${candidate + 1}: ${achieved(report, candidate)}`,
    ),
  ];
}
