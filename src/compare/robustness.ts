import { contenders, finalists } from '../insight/hand/contenders.js';
import { cutByHand, cutErrors, HAND } from '../insight/hand/figure-tolerance.js';
import { outcomeOf, Stopped } from '../insight/trials.js';
import { rankedStudy } from '../study/ranking.js';
import type { Layout, Row } from '../study/row.js';
import type { ScoreRows } from '../study/score-log.js';
import type { StudyTable } from '../study/table.js';
import type { Variant } from './variants.js';

/** Most dummies cut from one candidate: its share is known to about ± 12 % then; several seeds make it firmer. */
const MOST = 60;
/** But where little was scored, no more than one for so many of that, and at least so many. */
const FOR_EACH = 5;
const LEAST = 10;

/**
 * The candidate that is worth most when it is cut by hand, as far as a first look can tell, and the share of its dummies that
 * still work, per cent. Null where none works.
 * @throws Stopped when scoring ends early
 */
export async function mostRobust(
  { figure }: Variant,
  table: StudyTable,
  layout: Layout,
  seed: number,
  scoreRows: ScoreRows,
): Promise<{ candidate: number; share: number } | null> {
  const working = rankedStudy(table, layout).filter((candidate) => table.outcome(candidate) === 'works');
  if (working.length === 0) return null;
  const rowsOf = async (dummies: readonly Float64Array[]): Promise<Row[]> => {
    const rows: Row[] = [];
    for await (const row of scoreRows(dummies)) rows.push(row);
    if (rows.length < dummies.length) throw new Stopped('the cutting was stopped');
    return rows;
  };
  const cutOf = (candidate: number, errors: Float64Array) =>
    Float64Array.of(...table.vector(candidate), ...errors);
  const errorsOf = (candidate: number) => cutErrors(figure.template(table.vector(candidate)).cuts, HAND);
  const worth = (candidate: number) => layout.desirability(table.numbers(candidate));
  const [candidate] = await finalists(
    contenders(working, table.hasOwn ? 0 : null, worth, table.size),
    errorsOf,
    async (dummies) =>
      (await rowsOf(dummies.map(({ candidate, errors }) => cutOf(candidate, errors)))).map((row) =>
        outcomeOf(layout, row),
      ),
    1,
    seed,
  );
  const { works } = await cutByHand(
    errorsOf(candidate),
    async (errors) =>
      (await rowsOf(errors.map((each) => cutOf(candidate, each)))).map(({ outcome }) =>
        outcome === 'works' ? null : 'fails',
      ),
    Math.min(MOST, Math.max(LEAST, Math.floor(table.size / FOR_EACH))),
    seed,
  );
  return { candidate, share: 100 * works.share };
}
