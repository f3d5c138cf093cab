import { cutByHand, cutErrors, HAND } from '../insight/hand/figure-tolerance.js';
import { Scorer } from '../score/scorer.js';
import type { Variant } from './variants.js';

/** Dummies cut from one candidate: its share is known to about ± 12 % then; several seeds make it firmer. */
const DUMMIES = 60;

/** The share of dummies of a candidate that still work when they are cut by hand, per cent. */
export async function robustness({ figure }: Variant, vector: Float64Array, seed: number): Promise<number> {
  const scorer = new Scorer(figure);
  const template = figure.template(vector);
  const verdicts = async (rows: Float64Array[]) =>
    rows.map((errors) => (scorer.scoreCut(template, errors, vector).works ? null : 'fails'));
  const { works } = await cutByHand(cutErrors(template.cuts, HAND), verdicts, DUMMIES, seed);
  return 100 * works.share;
}
