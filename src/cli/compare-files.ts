import type { Comparison } from '../compare/compare.js';
import { type Cell, writeCsv } from '../disk/csv.js';
import { writeWhole } from '../disk/files.js';
import { comparePage } from '../report/pages/compare-page.js';
import { chanceInWords } from '../report/words/compare-words.js';
import type { StudyFolder } from '../study/folder.js';

/** Files that a comparison leaves in its folder, for a person to open in this order. */
export const COMPARED = ['compare.html', 'verdict.csv', 'compare.json'] as const;

/** Writes the page, the verdict as a table with a value for every seed, and all of it as data. */
export async function writeComparison(
  folder: StudyFolder,
  comparison: Comparison,
  facts: readonly (readonly [string, string])[],
): Promise<object> {
  const { variants, weighed, seeds } = comparison;
  writeWhole(folder.file('compare.html'), comparePage(comparison, facts));
  await writeCsv(
    folder.file('verdict.csv'),
    [
      'measure',
      'unit',
      'better',
      'variant',
      'median',
      'least',
      'greatest',
      'winner',
      'by',
      'chance',
      ...seeds.map((seed) => `seed ${seed}`),
    ],
    weighed.flatMap((each) =>
      variants.map(({ name }, i): Cell[] => [
        each.name,
        each.unit,
        each.better,
        name,
        each.medians[i],
        each.spans[i]?.[0] ?? null,
        each.spans[i]?.[1] ?? null,
        each.winner === null ? '' : variants[each.winner].name,
        each.by,
        each.chance,
        ...each.values[i],
      ]),
    ),
  );
  const json = comparedAsJson(comparison);
  writeWhole(folder.file('compare.json'), `${JSON.stringify(json, null, 2)}\n`);
  return json;
}

/** What `compare --json` prints and `compare.json` holds. */
function comparedAsJson({ variants, weighed, seeds, samples, unequal, runs }: Comparison): object {
  return {
    format: 'compare 1',
    variants: variants.map(({ name, source }) => ({ name, file: source.file })),
    seeds,
    samples,
    unequal,
    scored: runs.reduce((sum, { table }) => sum + table.size, 0),
    measures: weighed.map((each) => ({
      name: each.name,
      unit: each.unit,
      better: each.better,
      winner: each.winner === null ? null : variants[each.winner].name,
      by: each.by,
      chance: each.chance,
      inWords: chanceInWords(each),
      variants: variants.map(({ name }, i) => ({
        name,
        median: each.medians[i],
        least: each.spans[i]?.[0] ?? null,
        greatest: each.spans[i]?.[1] ?? null,
        values: each.values[i],
      })),
    })),
  };
}
