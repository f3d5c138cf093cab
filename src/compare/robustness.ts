import { cutByHand, cutErrors, HAND } from '../insight/hand/figure-tolerance.js';
import type { ScoreRows } from '../study/score-log.js';
import { Stopped } from './explore-variant.js';
import type { Variant } from './variants.js';

/** Most dummies cut from one candidate: its share is known to about ± 12 % then; several seeds make it firmer. */
const MOST = 60;
/** But where little was scored, no more than one for so many of that, and at least so many. */
const FOR_EACH = 5;
const LEAST = 10;

/**
 * The share of dummies of a candidate that still work when they are cut by hand, per cent.
 * @param scored how many dummies were scored to find it
 * @throws Stopped when scoring ends early
 */
export async function robustness(
  { figure }: Variant,
  vector: Float64Array,
  seed: number,
  scored: number,
  scoreRows: ScoreRows,
): Promise<number> {
  const verdicts = async (rows: Float64Array[]) => {
    const found: (string | null)[] = [];
    const dummies = rows.map((errors) => Float64Array.from([...vector, ...errors]));
    for await (const { outcome } of scoreRows(dummies)) found.push(outcome === 'works' ? null : 'fails');
    if (found.length < rows.length) throw new Stopped();
    return found;
  };
  const dummies = Math.min(MOST, Math.max(LEAST, Math.floor(scored / FOR_EACH)));
  const { works } = await cutByHand(cutErrors(figure.template(vector).cuts, HAND), verdicts, dummies, seed);
  return 100 * works.share;
}
