import { Stopped } from '../insight/trials.js';
import type { Variable } from '../search/evaluator.js';
import { variablesOf } from '../study/figure-variables.js';
import type { Layout } from '../study/row.js';
import type { ScoreLog, ScoreRows } from '../study/score-log.js';
import { type Asker, scoredOf } from '../study/study.js';
import { StudyTable } from '../study/table.js';
import type { Variant } from './variants.js';

/** Starts a search over some dims. */
export type StartSearch = (
  variables: readonly Variable[],
  seed: number,
  samples: number,
  /** The maker's own dummy, to be scored first. */
  own: Float64Array,
) => Asker;

/**
 * Explores one variant with one seed.
 * @param variant its place among the variants
 * @throws Stopped when scoring ends early
 */
export async function exploreVariant(
  { figure }: Variant,
  variant: number,
  run: { readonly seed: number; readonly samples: number; readonly layout: Layout },
  startSearch: StartSearch,
  log: ScoreLog,
  scoreRows: ScoreRows,
  onScored: (works: boolean) => void,
): Promise<StudyTable> {
  const { seed, samples, layout } = run;
  const table = new StudyTable(figure.free.length, layout);
  // With nothing to vary there is one dummy, whatever the seed.
  const search =
    figure.free.length === 0
      ? justOne(figure.start)
      : startSearch(variablesOf(figure), seed, samples, figure.start);
  for (let asked = await search.ask(); asked !== null; asked = await search.ask()) {
    const { stage, batch } = asked;
    const first = table.size;
    for await (const row of log.rows(`${variant}/${seed}/${stage}`, batch, scoreRows)) {
      table.add({ stage, vector: batch[table.size - first], row });
      onScored(row.outcome === 'works');
    }
    if (table.size - first < batch.length) throw new Stopped('the scoring was stopped');
    search.tell(batch.map((_, i) => scoredOf(layout, table, first + i)));
  }
  return table;
}

function justOne(vector: Float64Array): Asker {
  let asked = false;
  return {
    async ask() {
      if (asked) return null;
      asked = true;
      return { stage: 'sample', batch: [vector] };
    },
    tell() {},
    save: () => null,
  };
}
