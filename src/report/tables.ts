import { type Cell, writeCsv } from '../disk/csv.js';
import { writeWhole } from '../disk/files.js';
import type { SensitivityRow } from '../insight/sensitivity/sensitivity.js';
import type { StudyInsight } from '../insight/study-insight.js';
import type { StudyDim } from '../insight/study-sensitivity.js';
import type { StudyFolder } from '../study/folder.js';
import type { Entry, StudyLog } from '../study/log.js';
import type { Layout } from '../study/row.js';

/** Columns of the tables of candidates before those of the dims; no dim may be called so. */
export const FIRST_COLUMNS = ['candidate', 'stage', 'works'] as const;

/**
 * Columns for those that were cut by hand: the share of dummies that still work, and its 95 % interval; the share that
 * shuts and opens at least; and the desirability to be expected of all.
 */
const ROBUSTNESS = [
  'robustness',
  'robustness low',
  'robustness high',
  'shut and open',
  'expected desirability',
] as const;

/**
 * Writes `candidates.csv`, in the order of the candidates' numbers, and `ranking.csv`, the same rows, best first.
 * @param ranking candidates, best first, each by its place in the log
 * @param robust for those that were cut by hand, the share of dummies that still work
 */
export async function writeCandidates(
  folder: StudyFolder,
  log: StudyLog,
  dims: readonly StudyDim[],
  layout: Layout,
  ranking: readonly number[],
  robust: StudyInsight['robust'],
): Promise<void> {
  const header = distinct([
    ...FIRST_COLUMNS,
    ...dims.map(({ name }) => name),
    ...layout.headers,
    ...ROBUSTNESS,
  ]);
  const shares = new Map(
    robust.map(({ candidate, works: { share, low, high }, sound, expected }) => [
      candidate,
      [share, low, high, sound?.share ?? '', expected ?? ''],
    ]),
  );
  const rowOf = (candidate: number): Cell[] => [
    ...candidateRow(candidate, log.at(candidate), dims, layout),
    ...(shares.get(candidate) ?? ROBUSTNESS.map(() => '')),
  ];
  await writeCsv(folder.file('candidates.csv'), header, mapped(numbersTo(log.size), rowOf));
  await writeCsv(folder.file('ranking.csv'), header, mapped(ranking, rowOf));
}

function candidateRow(
  candidate: number,
  { stage, vector, row }: Entry,
  dims: readonly StudyDim[],
  layout: Layout,
): Cell[] {
  const values = dims.map(({ options }, dim) => (options === null ? vector[dim] : options[vector[dim]]));
  return [candidate + 1, stage, row.outcome === 'works', ...values, ...layout.cells(row)];
}

/** Headers that each stand for one column: one that is taken already gets a number. */
function distinct(headers: readonly string[]): string[] {
  const taken = new Set<string>();
  return headers.map((header) => {
    let name = header;
    for (let copy = 2; taken.has(name); copy++) name = `${header} ${copy}`;
    taken.add(name);
    return name;
  });
}

/** Writes `sensitivity.csv`: a row for each dim and score. Indices are shares of the score's variance. */
export async function writeSensitivity(folder: StudyFolder, rows: readonly SensitivityRow[]): Promise<void> {
  const columns: [header: string, of: (row: SensitivityRow) => Cell | null][] = [
    ['dim', (row) => row.dim],
    ['score', (row) => row.score],
    ['rank correlation', (row) => row.rankCorrelation],
    ['first-order index', (row) => row.first],
    ['first-order low', (row) => row.firstLow],
    ['first-order high', (row) => row.firstHigh],
    ['total index', (row) => row.total],
    ['total low', (row) => row.totalLow],
    ['total high', (row) => row.totalHigh],
    ['indices from', (row) => row.from],
    ['surrogate explains', (row) => row.heldOut?.explained ?? null],
    ['surrogate off by', (row) => row.heldOut?.rms ?? null],
    ['reason', (row) => row.reason],
  ];
  const cells = mapped(rows, (row) => columns.map(([, of]) => of(row)));
  await writeCsv(
    folder.file('sensitivity.csv'),
    columns.map(([header]) => header),
    cells,
  );
}

/** Writes `study.json`. All but `timings` is the same for the same figure and settings. */
export function writeStudy(folder: StudyFolder, study: object): void {
  writeWhole(folder.file('study.json'), `${JSON.stringify(study, null, 2)}\n`);
}

function* numbersTo(count: number): Generator<number> {
  for (let number = 0; number < count; number++) yield number;
}

function* mapped<A, B>(items: Iterable<A>, change: (item: A) => B): Generator<B> {
  for (const item of items) yield change(item);
}
