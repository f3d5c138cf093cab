import { cutByHand, cutErrors, HAND } from '../insight/hand/figure-tolerance.js';
import type { ScoreRows } from '../study/score-log.js';
import { Stopped } from './explore-variant.js';
import type { Variant } from './variants.js';

/** Dummies cut from one candidate: its share is known to about ± 12 % then; several seeds make it firmer. */
const DUMMIES = 60;

/**
 * The share of dummies of a candidate that still work when they are cut by hand, per cent.
 * @throws Stopped when scoring ends early
 */
export async function robustness(
  { figure }: Variant,
  vector: Float64Array,
  seed: number,
  scoreRows: ScoreRows,
): Promise<number> {
  const verdicts = async (rows: Float64Array[]) => {
    const found: (string | null)[] = [];
    const dummies = rows.map((errors) => Float64Array.from([...vector, ...errors]));
    for await (const { outcome } of scoreRows(dummies)) found.push(outcome === 'works' ? null : 'fails');
    if (found.length < rows.length) throw new Stopped();
    return found;
  };
  const { works } = await cutByHand(cutErrors(figure.template(vector).cuts, HAND), verdicts, DUMMIES, seed);
  return 100 * works.share;
}
